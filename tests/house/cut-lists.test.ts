import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  buildSchema,
  getNamedType,
  isListType,
  isNonNullType,
  isObjectType,
  Kind,
  parse,
  print,
  type SelectionSetNode,
  TypeInfo,
  visit,
  visitWithTypeInfo,
} from 'graphql';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../../', import.meta.url));
const schema = buildSchema(readFileSync(join(root, 'docs/schema.graphql'), 'utf8'));

/** A description that says how many there are at most, and that there may be others. */
const SAYS_CUT =
  /\bat most [\d,]+|\bup to [\d,]+|\bthe [\d,]+ \w+ that\b|, the [\d,]+ (likeliest|newest|largest)|\b(latest|newest) [\d,]+|\bthe first (ten|twelve|twenty)\b/i;

/** Of each list that is cut: the field of the same type that tells what is not in it, or why nothing can be missed. */
const told: Readonly<Record<string, { readonly by: string } | { readonly whole: string }>> = {
  'BackupState.backups': { by: 'madeCount' },
  'BroodLocus.pairs': { whole: 'probabilities: what they lack of 1 is that of all others' },
  'FoundGroup.found': { by: 'hasMore' },
  'ForecastGeneration.alleles': { whole: 'as many as a purpose may ask for' },
  'ForecastGeneration.traits': { whole: 'as many as a purpose may ask for' },
  'ImportCause.values': { by: 'valueCount' },
  'ImportPreview.notes': { by: 'noteCount' },
  'ImportPreview.problems': { by: 'problemCount' },
  'InbreedingSources.byGenerations': { whole: 'F itself stands beside it' },
  'InbreedingSources.byOrigin': { by: 'originCount' },
  'LineFigures.ancestors': { whole: 'shares: what they lack of 1 is told by the last total' },
  'LineForecast.leftOut': { whole: 'sentences, one for each kind of thing' },
  'LineOutcross.cautions': { whole: 'some of one fish' },
  'LineOutcross.leftOut': { whole: 'sentences, one for each kind of thing' },
  'LinePlan.fish': { whole: 'as many as its way of breeding has' },
  'LinePlan.problems': { whole: 'some of each of its broods' },
  'LinePlan.spawns': { by: 'spawnCount' },
  'LinePlan.steps': { whole: 'as many as its way of breeding has' },
  'LineRoute.broods': { whole: 'as many as its way of breeding has' },
  'LineRoute.byGeneration': { whole: 'as many as may be asked for' },
  'LineRoute.fish': { whole: 'as many as its way of breeding has' },
  'LineRoutes.forNow': { whole: 'one sentence for all traits of which the same is taken' },
  'LineRoutes.leftOut': { whole: 'sentences, one for each kind of thing' },
  'LineRoutes.routes': { by: 'pairsTried' },
  'MeritReasons.reasons': { by: 'fishCount' },
  'OutcrossChance.byGeneration': { whole: 'as many as may be asked for' },
  'OutcrossCourse.alleles': { whole: 'as many as a purpose may ask for' },
  'OutcrossCourse.generations': { whole: 'as many as may be asked for' },
  'OutcrossCourse.traits': { whole: 'as many as a purpose may ask for' },
  'OutcrossForecast.costs': { whole: 'as many as a purpose may ask for' },
  'OutcrossForecast.gains': { whole: 'as many as a purpose may ask for' },
  'OutcrossForecast.needs': { whole: 'as many as a purpose may ask for' },
  'OutcrossGeneration.alleles': { whole: 'as many as a purpose may ask for' },
  'OutcrossGeneration.traits': { whole: 'as many as a purpose may ask for' },
  'PairLocus.pairs': { whole: 'probabilities: what they lack of 1 is that of all others' },
  'PlanStep.failedSpawns': { whole: 'of the spawns that are looked at, those of one pair' },
  'RestingRecords.names': { by: 'count' },
  'StrategyForecast.generations': { whole: 'as many as may be asked for' },
  'TakeBackPreview.changedNames': { by: 'changed' },
  'TestMatings.matings': { by: 'judgedCount' },
  'TraitMeritResult.worthScoring': {
    whole: 'advice on what to do next, not a list of what there is',
  },
  'TraitReliability.scores': { by: 'fishRepeated' },
};

interface CutList {
  readonly name: string;
  readonly siblings: readonly string[];
}

const cutLists: readonly CutList[] = Object.values(schema.getTypeMap())
  .filter((type) => isObjectType(type) && !type.name.startsWith('__'))
  .flatMap((type) => {
    const fields = Object.values(isObjectType(type) ? type.getFields() : {});
    return fields
      .filter((field) => {
        const bare = isNonNullType(field.type) ? field.type.ofType : field.type;
        return isListType(bare) && SAYS_CUT.test((field.description ?? '').replace(/\s+/g, ' '));
      })
      .map((field) => ({
        name: `${type.name}.${field.name}`,
        siblings: fields.map(({ name }) => name),
      }));
  });

const documents = readdirSync(join(root, 'apps/viewer/src'), { recursive: true, encoding: 'utf8' })
  .filter((file) => /\.tsx?$/.test(file) && !/\.d\.ts$|\.test\.tsx?$/.test(file))
  .flatMap((file) =>
    [
      ...readFileSync(join(root, 'apps/viewer/src', file), 'utf8').matchAll(
        /graphql\(\s*`([^`]+)`/g,
      ),
    ].map(([, text]) => parse(text ?? '')),
  );

interface Selection {
  readonly type: string;
  readonly fields: readonly string[];
  /** Records asked for by their ids are as many as there are ids. */
  readonly byIds: boolean;
}

const fieldsIn = (node: SelectionSetNode): string[] =>
  node.selections.flatMap((one) => (one.kind === Kind.FIELD ? [one.name.value] : []));

/** Every selection of a type's fields that the viewer sends. */
const selections = documents.flatMap((document): Selection[] => {
  const found: Selection[] = [];
  const info = new TypeInfo(schema);
  visit(
    document,
    visitWithTypeInfo(info, {
      Field: ({ arguments: given = [], selectionSet }) => {
        const type = info.getType();
        if (selectionSet === undefined || !type) return;
        const byIds = given.some((one) => print(one).includes('ids: $ids'));
        found.push({ type: getNamedType(type).name, fields: fieldsIn(selectionSet), byIds });
      },
      FragmentDefinition: ({ typeCondition, selectionSet }) => {
        found.push({
          type: typeCondition.name.value,
          fields: fieldsIn(selectionSet),
          byIds: false,
        });
      },
    }),
  );
  return found;
});

describe('lists that hold only a part', () => {
  it('are all known here, by their descriptions in the schema', () => {
    expect(cutLists.map(({ name }) => name).toSorted()).toEqual(Object.keys(told).toSorted());
    expect(cutLists.length).toBeGreaterThan(10);
  });

  it.each(cutLists)('$name: a field beside it tells what is not in it', ({ name, siblings }) => {
    const rest = told[name];
    if (rest !== undefined && 'by' in rest) expect(siblings).toContain(rest.by);
    else expect(rest?.whole).toMatch(/\w+/);
  });

  it('a list whose page is told in the viewer asks for how many there are', () => {
    const connections = selections.filter(({ fields }) => fields.includes('edges'));
    expect(connections.length).toBeGreaterThan(10);
    const silent = connections.filter(
      ({ fields, byIds }) =>
        !byIds && !fields.includes('totalCount') && !fields.includes('pageInfo'),
    );
    expect(silent).toEqual([]);
  });

  it.each(Object.entries(told).flatMap(([name, rest]) => ('by' in rest ? [[name, rest.by]] : [])))(
    'where the viewer shows %s it asks for %s too',
    (name = '', by = '') => {
      const [type, list = ''] = name.split('.');
      const asked = selections.filter((one) => one.type === type && one.fields.includes(list));
      expect(asked.filter(({ fields }) => !fields.includes(by))).toEqual([]);
    },
  );
});
