import {
  getNamedType,
  type GraphQLField,
  type GraphQLInputType,
  type GraphQLSchema,
  isInputObjectType,
} from 'graphql';
import { LONGEST_FILE } from '../limits/lengths.js';
import { limitOf } from './input-limits.js';

const holdsFile = (place: string, type: GraphQLInputType): boolean => {
  const named = getNamedType(type);
  if (limitOf(place, type).characters === LONGEST_FILE) return true;
  return (
    isInputObjectType(named) &&
    Object.values(named.getFields()).some(
      (field) => limitOf(`${named.name}.${field.name}`, field.type).characters === LONGEST_FILE,
    )
  );
};

/** Whether an operation takes the text of a whole file. */
export const carriesFile = (owner: string, field: GraphQLField<unknown, unknown>): boolean =>
  field.args.some(({ name, type }) => holdsFile(`${owner}.${field.name}.${name}`, type));

/** Names of the operations that take the text of a whole file. */
export const fileOperations = (schema: GraphQLSchema): ReadonlySet<string> => {
  const roots = [schema.getQueryType(), schema.getMutationType()].filter((type) => type != null);
  return new Set(
    roots.flatMap((root) =>
      Object.values(root.getFields())
        .filter((field) => carriesFile(root.name, field))
        .map((field) => field.name),
    ),
  );
};

/** A file of the longest kind is read for seconds: two in one request, and not a third. */
const FILE = 10_000;
/** A second and more at its largest, mostly beside the event loop. */
const LONG = 2_500;
/** Some tenths of a second. */
const WIDE = 1_250;

const each = (names: string, work: number): [string, number][] =>
  names.split(' ').map((name) => [name, work]);

/** By the name of the operation: what it works out or writes however few fields are asked of it. */
const works = new Map<string, number>([
  ...each('cross testMatings goodnessOfFit broodSize', LONG),
  ...each('traitMerit setTraitModel resetTraitModel rankedFish meritReasons', LONG),
  ...each('traitTrend traitsTogether lineInbreedingLoad', LONG),
  ...each('lineTrends lineForecast', FILE),
  ...each('lineRoutes lineOutcross adoptRoute', LONG),
  ...each(
    'carrierReasons fishCarriers contradictions broodOutlook pairOutlook plannedBrood pairDifference',
    LONG,
  ),
  ...each('pairProposal adoptRound broodKeeping', LONG),
  ...each('club clubHeritability', LONG),
  ...each('clubLoad', FILE),
  ...each('recordSibs recordScores addFishToSpawn changeFishTogether previewFishTogether', LONG),
  ...each('takeBackFishAct takeBackImport takeBackPreview', LONG),
  ...each('loadDemo openDemo clearDemo makeBackup', FILE),
  ...each('pairingCandidates outcrosses careTasks createScoreSheet reviseScoreSheet', WIDE),
  ...each('saveCareTemplate defineLocus reviseLocus spawnExpectation', WIDE),
]);

/**
 * What an operation costs beside the fields of its answer, in the same measure: its work may be large where its answer is not. Those not
 * named write or read a few records, and cost what their fields do.
 */
export const workOf = (owner: string, field: GraphQLField<unknown, unknown>): number =>
  carriesFile(owner, field) ? FILE : (works.get(field.name) ?? 0);

/** Operations that are named here; a test holds them against the schema. */
export const workedOperations: readonly string[] = [...works.keys()];

/** Of a field that passes over a whole pedigree and lists hundreds: a few in one request, not twenty. */
export const passesOverThePedigree = ({ childComplexity }: { childComplexity: number }): number =>
  3_000 + childComplexity;
