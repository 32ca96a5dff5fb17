import { dateOf, dayOf } from './calendar.js';
import { PEOPLE_NAMES } from './line-plans.js';
import type { RandomSource } from './random-source.js';
import type {
  DemoFaultSeverity,
  DemoScore,
  DemoScoreSheet,
  DemoSheetScoring,
  DemoSheetVersion,
  DemoTraitDefinition,
} from './scenario.js';
import type { SimulatedFish } from './simulated-fish.js';

/** An invented visitor who looks at the same fish a day or two later, and sees spreads a little narrower. */
const VISITOR = 'Thimble Reedwhisker';
const VISITED = 16;
const LOOKED_TWICE = 6;

interface SheetSources {
  readonly fish: readonly SimulatedFish[];
  readonly definitions: readonly DemoTraitDefinition[];
  readonly scores: readonly DemoScore[];
  readonly personId: string;
  readonly today: number;
  readonly ids: RandomSource;
  readonly random: RandomSource;
}

interface SheetRecords {
  readonly scoreSheets: DemoScoreSheet[];
  readonly sheetScorings: DemoSheetScoring[];
  readonly scores: DemoScore[];
}

/** How a repeated look differs from the first: the visitor's own bias and chance. */
const RESCORED: readonly { key: string; bias: number; chance: number }[] = [
  { key: 'caudal_spread', bias: -4, chance: 3 },
  { key: 'fin_balance', bias: 0.2, chance: 0.6 },
  { key: 'colour_evenness', bias: 0, chance: 0.6 },
  { key: 'bearing', bias: 0.3, chance: 0.9 },
];

/** Weights of the demo's person, who has changed them once; invented like everything here. */
const WEIGHTS: Readonly<Record<string, number>> = {
  caudal_spread: 4,
  fin_balance: 3,
  colour_evenness: 2,
  bearing: 1,
};

const FAULTS: readonly (readonly [string, DemoFaultSeverity])[] = [
  ['Torn fin', 'slight'],
  ['Shyness', 'slight'],
  ['Curled or bent rays', 'minor'],
  ['Gaps between fins', 'major'],
  ['Spoon head', 'severe'],
  ['Blind in an eye', 'disqualifying'],
];

function lineOf(trait: DemoTraitDefinition, weight: number | null) {
  const measured = trait.kind === 'measured';
  return {
    traitId: trait.id,
    traitVersion: trait.version,
    weight,
    noneAt: measured ? 120 : trait.minimum,
    fullAt: measured ? 180 : trait.maximum,
  };
}

function grownSheet({ definitions, personId, today, ids }: SheetSources): DemoScoreSheet {
  const traits = definitions.filter(({ key }) => key in WEIGHTS);
  const faults = FAULTS.map(([name, severity]) => ({ id: ids.uuid(), name, severity }));
  const version = (number: number, daysAgo: number, weighted: boolean): DemoSheetVersion => ({
    version: number,
    createdAt: `${dateOf(today - daysAgo)}T18:00:00.000Z`,
    fromAgeDays: 112,
    toAgeDays: 168,
    lines: traits.map((trait) => lineOf(trait, weighted ? (WEIGHTS[trait.key] ?? 0) : null)),
    faults,
    deductions: weighted ? { slight: 2, minor: 5, major: 10, severe: 25 } : {},
  });
  return {
    id: ids.uuid(),
    personId,
    name: 'Grown fish',
    description: 'The look that decides who breeds.',
    version: 2,
    versions: [version(1, 700, false), version(2, 120, true)],
  };
}

function structureSheet({ definitions, personId, today, ids }: SheetSources): DemoScoreSheet {
  const traits = definitions.filter(({ key }) =>
    ['straight_spine', 'ventral_condition'].includes(key),
  );
  return {
    id: ids.uuid(),
    personId,
    name: 'First look',
    description: 'Spine and ventrals, before jarring ends.',
    version: 1,
    versions: [
      {
        version: 1,
        createdAt: `${dateOf(today - 700)}T18:00:00.000Z`,
        fromAgeDays: 28,
        toAgeDays: 60,
        lines: traits.map((trait) => lineOf(trait, null)),
        faults: [{ id: ids.uuid(), name: 'Bent spine or hump', severity: 'severe' }],
        deductions: {},
      },
    ],
  };
}

/** The same fish looked at again within days: by the visitor on the sheet, some by the person too. */
export function sheetRecords(sources: SheetSources): SheetRecords {
  const { fish, definitions, scores: first, today, ids, random } = sources;
  const sheet = grownSheet(sources);
  const sheetScorings: DemoSheetScoring[] = [];
  const scores: DemoScore[] = [];
  const spread = definitions.find(({ key }) => key === 'caudal_spread');
  const scoredFirst = new Map(
    first.filter(({ traitId }) => traitId === spread?.id).map((score) => [score.fishId, score]),
  );
  const visited = fish
    .filter((one) => one.person === 0 && one.disposition === 'keeper' && scoredFirst.has(one.id))
    .sort((a, b) => b.hatchDay - a.hatchDay || (a.tag < b.tag ? -1 : 1))
    .slice(0, VISITED);
  visited.forEach((one, k) => {
    const before = scoredFirst.get(one.id);
    if (before === undefined) return;
    const look = (scorer: string, later: number, bias: boolean) => {
      const day = Math.min(today, dayOf(before.scoredOn) + later);
      const about = { fishId: one.id, scoredOn: dateOf(day), ageDays: day - one.hatchDay, scorer };
      const scoringId = ids.uuid();
      // Those scored before the weights were set were scored on the version of then.
      const sheetVersion = day < today - 120 ? 1 : 2;
      const seen = sheet.versions[0]?.faults.filter(() => random.chance(0.08)) ?? [];
      sheetScorings.push({
        ...about,
        id: scoringId,
        sheetId: sheet.id,
        sheetVersion,
        note: null,
        faultIds: seen.filter(({ severity }) => severity !== 'disqualifying').map(({ id }) => id),
      });
      for (const again of RESCORED) {
        const trait = definitions.find(({ key }) => key === again.key);
        const was = first.find((s) => s.fishId === one.id && s.traitId === trait?.id);
        if (trait === undefined || was === undefined) continue;
        const wanted = was.value + (bias ? again.bias : 0) + random.normal(0, again.chance);
        const value = Math.min(trait.maximum ?? wanted, Math.max(trait.minimum ?? wanted, wanted));
        scores.push({
          ...about,
          id: ids.uuid(),
          traitId: trait.id,
          traitVersion: trait.version,
          value: Math.round(value),
          note: null,
          correctsId: null,
          scoringId,
        });
      }
    };
    look(VISITOR, 2, true);
    if (k < LOOKED_TWICE) look(PEOPLE_NAMES[0], 3, false);
  });
  return { scoreSheets: [sheet, structureSheet(sources)], sheetScorings, scores };
}
