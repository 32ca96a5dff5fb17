import type {
  Figure,
  FounderSource,
  GenerationInterval,
  InbreedingRate,
  LineHealth,
  ParentAge,
  Share,
} from '@linewright/kinship';
import { basisOfInbreeding } from '@linewright/pedigree';
import { toComputation } from '../jobs/computation.mapper.js';
import { toLine } from '../shapes/line.mapper.js';
import type {
  EffectiveNumbersModel,
  LineFiguresModel,
  LineHealthModel,
  SharesOverTimeModel,
  StockFigureModel,
  UnequalShareModel,
} from './line-health.model.js';
import type { LineStanding, LineStock } from './line-stock.js';
import type { LineAnswer } from './line-task.js';
import type { NamedFishModel } from '../shapes/named-fish.model.js';
import type { FounderSourceModel } from '../kinship/founder-source.model.js';
import { largestFirst } from '../kinship/largest-first.js';

const MOST_POINTS = 4_000;
const MOST_ANCESTORS = 20;

export const toLineHealth = (
  { line, fishCount, inUseCount, figures, waiting }: LineStanding,
  includeUnsorted: boolean,
): LineHealthModel => ({
  line: toLine(line),
  fishCount,
  inUseCount,
  whyNone: inUseCount === 0 ? whyNoFigures(fishCount, includeUnsorted) : null,
  figures,
  waiting: waiting === null ? null : toComputation(waiting),
});

const whyNoFigures = (fishCount: number, includeUnsorted: boolean): string => {
  if (fishCount === 0)
    return 'No fish is recorded in this line: record one, or a spawn of the line.';
  return includeUnsorted
    ? 'No fish of this line is alive here: all were placed, culled or died.'
    : 'No fish of this line is in use: decide which are keepers or on hold, or count the unsorted too.';
};

/** Every figure as it is sent, and as it is stored when it was long in the making. */
export const toFigures = (
  stock: LineStock,
  { health, inbreeding, generation, kinship }: LineAnswer,
): LineFiguresModel => {
  const { members, inUse } = stock.task;
  const named = fishOf(stock);
  const basis = (i: number) => basisOfInbreeding(stock.pedigree, stock.task.unknown, i);
  const oneOf = (i: number) => ({
    fish: named(i),
    inbreedingCoefficient: inbreeding[i] ?? 0,
    inbreedingBasis: basis(i),
  });
  return {
    inbreeding: toFigure(health.inbreeding),
    lowestInbreeding: health.inbreeding.lowest,
    highestInbreeding: health.inbreeding.highest,
    maleByFemale: toFigure(health.maleByFemale, {
      none: 'At least one male and one female in use are needed: record the sex of the fish, or count the unsorted too.',
    }),
    meanKinship: toFigure(health.meanKinship),
    completeness: toFigure({
      value: health.completeness.meanEquivalents,
      standardError: null,
      inputs: {
        'fish in use': inUse.length,
        'least of a fish in use': health.completeness.lowestEquivalents,
      },
    }),
    completenessByGeneration: [...health.completeness.byGeneration],
    generationInterval: toInterval(health.generationInterval),
    byGeneration: health.byGeneration.map((row) => ({
      ...row,
      notKnownCount: members.filter((i) => generation[i] === row.generation && basis(i) !== 'known')
        .length,
    })),
    points:
      members.length > MOST_POINTS
        ? null
        : Array.from(members, (i) => ({ ...oneOf(i), generation: generation[i] ?? 0 })),
    rate: toRate(health.rate),
    sharesOverTime: toShares(health, named),
    founders: toFounders(health, named),
    ancestors: health.ancestors.slice(0, MOST_ANCESTORS).map((ancestor) => ({
      ...toSource(ancestor, named),
      marginal: ancestor.marginal,
      total: ancestor.total,
    })),
    effective: toEffective(health),
    overContributors: {
      founders: toUnequal(health.overContributors.founders, named),
      sires: toUnequal(health.overContributors.sires, named),
      dams: toUnequal(health.overContributors.dams, named),
    },
    rarestFounders: toRarest(health, named),
    kinship: Array.from(inUse, (i, k) => ({ ...oneOf(i), meanKinship: kinship[k] ?? 0 })).sort(
      (a, b) => a.meanKinship - b.meanKinship || a.fish.tag.localeCompare(b.fish.tag, 'en'),
    ),
  };
};

type Named = (index: number) => NamedFishModel;

const toFounders = ({ founders }: LineAnswer['health'], named: Named) =>
  largestFirst(
    founders.map((founder) => ({
      ...toSource(founder, named),
      contribution: founder.contribution,
      retention: founder.retention,
      survival: founder.survival,
      standardError: founder.standardError,
    })),
    (founder) => founder.contribution,
    (founder) => founder.fish,
  );

const toRarest = ({ rarestFounders }: LineAnswer['health'], named: Named) =>
  rarestFounders.map((founder) => ({
    ...toSource(founder, named),
    contribution: founder.contribution,
    moreAsMuch: founder.moreAsMuch,
    carriers: largestFirst(
      founder.carriers.map(({ fish, share }) => ({ fish: named(fish), share })),
      ({ share }) => share,
      ({ fish }) => fish,
    ),
  }));

const fishOf =
  ({ pedigree, fish }: LineStock): Named =>
  (index) => {
    const one = fish.get(pedigree.ids[index] ?? '');
    if (one === undefined) throw new Error(`Fish ${index} of the line was not read.`);
    return one;
  };

/** What cannot be written as a number in JSON is told in words instead. */
const toFigure = (
  { value, standardError, inputs }: Figure,
  why: { none?: string; unlimited?: string } = {},
): StockFigureModel => {
  const finite = value !== null && Number.isFinite(value);
  return {
    value: finite ? value : null,
    whyNone: finite
      ? null
      : value === null
        ? (why.none ?? 'The records do not allow it.')
        : (why.unlimited ?? 'Nothing on record limits it.'),
    standardError,
    inputs: Object.entries(inputs).map(([name, given]) => ({ name, value: given })),
  };
};

const toSource = ({ founder, unknownParent }: FounderSource, named: Named): FounderSourceModel => ({
  fish: named(founder),
  unknownParent,
});

const toUnequal = (shares: readonly Share[], named: Named): UnequalShareModel[] =>
  largestFirst(
    shares.map(({ fish, unknownParent, share, equalShare, young }) => ({
      fish: named(fish),
      unknownParent,
      share,
      equalShare,
      young,
    })),
    ({ share }) => share,
    ({ fish }) => fish,
  );

const toShares = (health: LineHealth, named: Named): SharesOverTimeModel => {
  const { generations, founders, shares } = health.sharesOverTime;
  const counts = new Map(health.byGeneration.map(({ generation, count }) => [generation, count]));
  return {
    founders: founders.map((founder) => toSource(founder, named)),
    generations: generations.map((generation, row) => ({
      generation,
      count: counts.get(generation) ?? 0,
      shares: [...shares.subarray(row * founders.length, (row + 1) * founders.length)],
    })),
  };
};

const toEffective = ({ effective, rate }: LineHealth): EffectiveNumbersModel => ({
  founders: toFigure(effective.founders),
  ancestors: toFigure(effective.ancestors),
  genomesByRetention: toFigure(effective.genomesByRetention),
  genomesByKinship: toFigure(effective.genomesByKinship),
  sizeFromInbreeding: toFigure(effective.sizeFromInbreeding, {
    none: 'No fish in use has more than one full generation of ancestors on record, so its increase in F has no meaning yet.',
    unlimited: 'No fish in use is inbred on record, so nothing limits the size yet.',
  }),
  sizeFromRate: toFigure(
    { value: rate?.effectiveSize ?? null, standardError: null, inputs: inputsOfRate(rate) },
    {
      none:
        rate === null
          ? NO_RATE
          : 'Mean F falls over the generations, as after an outcross: there is no rise to take a size from.',
      unlimited: 'Mean F does not rise over the generations, so nothing limits the size yet.',
    },
  ),
  sizeFromSexes: toFigure(effective.sizeFromSexes, {
    none: 'No fish in use has a known sire, or none has a known dam.',
  }),
  sizeFromFamilies: toFigure(effective.sizeFromFamilies, {
    none: 'No parent has more than one young in use, so there is no spread of family sizes to judge by.',
  }),
});

const NO_RATE = 'The line has fish of fewer than two generations on record.';

const inputsOfRate = (rate: InbreedingRate | null): Record<string, number> =>
  rate === null ? {} : { 'rate a generation': rate.rate, generations: rate.generations };

const toRate = (rate: InbreedingRate | null): StockFigureModel =>
  toFigure(
    {
      value: rate?.rate ?? null,
      standardError: null,
      inputs: rate === null ? {} : { generations: rate.generations },
    },
    { none: NO_RATE },
  );

const toInterval = (interval: GenerationInterval | null): StockFigureModel => {
  const paths: [string, ParentAge | null | undefined][] = [
    ['sire to son', interval?.sireToSon],
    ['sire to daughter', interval?.sireToDaughter],
    ['dam to son', interval?.damToSon],
    ['dam to daughter', interval?.damToDaughter],
  ];
  const known = paths.flatMap(([name, age]) =>
    age === null || age === undefined
      ? []
      : [
          [`${name}, mean days`, age.mean],
          [`${name}, young`, age.count],
        ],
  );
  return toFigure(
    {
      value: interval?.interval ?? null,
      standardError: null,
      inputs: Object.fromEntries(known) as Record<string, number>,
    },
    { none: 'No young of this line that bred has its own hatch date and a parent’s on record.' },
  );
};
