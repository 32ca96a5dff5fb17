import {
  completeGenerationEquivalents,
  generationDepth,
  type Pedigree,
  type Sex,
} from '@linewright/pedigree';
import { checkLength } from '../checks.js';
import type { FounderOptions } from '../founder-relationship.js';
import { knownInbreeding } from '../inbreeding.js';
import { meanCoancestryBetween, meanKinship } from '../relationship-product.js';
import {
  founderSharesOverTime,
  overContributors,
  rarestFounders,
  type FounderCarriers,
  type OverContributors,
  type SharesOverTime,
} from './balance.js';
import { effectiveAncestors, type AncestorContribution } from './effective-ancestors.js';
import {
  effectiveSizeFromFamilies,
  effectiveSizeFromSexes,
  realisedEffectiveSize,
} from './effective-size.js';
import { founderGenomeEquivalents, type RetainedFounder } from './founder-genomes.js';
import { checkGroup, effectiveFounders } from './founders.js';
import { generationInterval, type GenerationInterval } from './generation-interval.js';
import {
  inbreedingByGeneration,
  inbreedingRate,
  meanCompleteness,
  type GenerationInbreeding,
  type InbreedingRate,
} from './inbreeding-by-generation.js';

/** A figure with what it was made from, so that it can answer "why?" in place. */
export interface Figure {
  /** `null` when the records do not allow it; `Infinity` where nothing limits it. */
  readonly value: number | null;
  /** `null` when it is exact for the pedigree given. */
  readonly standardError: number | null;
  /** The numbers that went in, by plain names. */
  readonly inputs: Readonly<Record<string, number>>;
}

/** Effective numbers of a group; each sees a loss that the others do not. */
export interface EffectiveNumbers {
  readonly founders: Figure;
  readonly ancestors: Figure;
  /** What is left of the founders' genes. Not comparable with the next. */
  readonly genomesByRetention: Figure;
  /** How seldom genes drawn at random are alike by descent. */
  readonly genomesByKinship: Figure;
  readonly sizeFromInbreeding: Figure;
  readonly sizeFromSexes: Figure;
  /** From the spread of the numbers of young in use among the parents of the fish in use. */
  readonly sizeFromFamilies: Figure;
}

export interface LineHealth {
  /** F of the fish in use. */
  readonly inbreeding: Figure & { readonly lowest: number; readonly highest: number };
  /**
   * Mean coancestry of the males in use with the females in use: the mean F of their young, were each male as likely to mate with
   * each female. `null` without a fish of either sex, and where `sex` was not given. Fish of unknown sex are left out.
   */
  readonly maleByFemale: Figure;
  /**
   * Mean coancestry of the fish in use with each other, their own sex and themselves included: what genes drawn at random from them
   * share. Always above {@link maleByFemale} in a small stock, and no F of any young.
   */
  readonly meanKinship: Figure;
  readonly byGeneration: readonly GenerationInbreeding[];
  readonly rate: InbreedingRate | null;
  readonly sharesOverTime: SharesOverTime;
  readonly founders: readonly RetainedFounder[];
  /** Ancestors by what they alone explain, largest first. */
  readonly ancestors: readonly AncestorContribution[];
  readonly effective: EffectiveNumbers;
  readonly completeness: {
    readonly meanEquivalents: number;
    readonly lowestEquivalents: number;
    /** Known share of parents, grandparents, ... */
    readonly byGeneration: Float64Array;
  };
  readonly overContributors: OverContributors;
  readonly rarestFounders: readonly FounderCarriers[];
  /** Parents' age at the birth of young of the line that bred; `null` where no birth dates were given. */
  readonly generationInterval: GenerationInterval | null;
}

export interface LineHealthInput extends FounderOptions {
  readonly pedigree: Pedigree;
  /** Fish of the line that may still be bred from. */
  readonly inUse: ArrayLike<number>;
  /** All fish of the line, for the figures over time; by default the whole pedigree. */
  readonly line?: ArrayLike<number>;
  /** Generation number of every fish of the pedigree; by default its longest line to a founder. */
  readonly generation?: ArrayLike<number>;
  /** Sex of every fish of `inUse`, in their order. */
  readonly sex?: ArrayLike<Sex>;
  /** Birth date of every fish of the pedigree as a number, for example in days; `NaN` where unknown. */
  readonly bornOn?: ArrayLike<number>;
  /** Seed of the gene drops that stand in where exact retention is too costly. */
  readonly seed: number;
  /** Gene drops, 1,000 by default. */
  readonly replicates?: number;
  /** Told how far the work is, 0 to 1; rises, and comes last with 1. */
  readonly onProgress?: (share: number) => void;
}

/** Share of the time that has gone by when each part is done, on lines of some ten thousand fish. */
const PROGRESS = { retained: 0.6, ancestors: 0.8, shares: 0.9 };

/** Generations of completeness listed. */
const GENERATIONS_SHOWN = 6;

/**
 * All figures of a line's health page in one pure step: F by generation, founders' shares over time, effective numbers,
 * completeness, who contributes more than an equal part, and who carries the rarest founders.
 *
 * Assumes, as the pedigree does, that founders are unrelated and not inbred unless `founders` says otherwise; `completeness` says
 * how far that reaches. What is given of founders enters F, mean kinship, the map of generations, effective founders and genomes by
 * kinship. It leaves shares and survival of genes as they are, and makes the three figures that cannot be told then `null`:
 * effective ancestors, genomes by retention, and size from inbreeding.
 * Cost: some passes over the pedigree for each founder and each main ancestor, and `replicates` gene drops where needed.
 * @throws {KinshipError} `KINSHIP_BAD_ARGUMENT` with no fish in use, `KINSHIP_BAD_INDEX`, `KINSHIP_LENGTH_MISMATCH`.
 * @example
 * const health = lineHealth({ pedigree, inUse: [7, 8, 9], seed: 1 });
 * health.effective.founders.value; // with health.effective.founders.inputs beside it
 */
export function lineHealth(input: LineHealthInput): LineHealth {
  const { pedigree, inUse } = input;
  checkGroup(pedigree, inUse);
  const line = input.line ?? Int32Array.from({ length: pedigree.size }, (_, i) => i);
  const generation = input.generation ?? generationDepth(pedigree);
  checkLength('generation', generation.length, pedigree.size);
  const options: FounderOptions = input.founders === undefined ? {} : { founders: input.founders };
  const reached = (share: number): void => input.onProgress?.(share);
  const retained = founderGenomeEquivalents(pedigree, inUse, {
    seed: input.seed,
    replicates: input.replicates ?? 1000,
    budget: 20_000,
    onProgress: (share) => reached(PROGRESS.retained * share),
  });
  reached(PROGRESS.retained);
  const ancestors = effectiveAncestors(pedigree, inUse);
  reached(PROGRESS.ancestors);
  const byGeneration = inbreedingByGeneration(pedigree, { ...options, fish: line, generation });
  const kinship =
    meanKinship(pedigree, inUse, options).reduce((sum, value) => sum + value, 0) / inUse.length;
  const sharesOverTime = founderSharesOverTime(pedigree, line, generation);
  reached(PROGRESS.shares);
  const health: LineHealth = {
    inbreeding: inbreedingOf(pedigree, inUse, options),
    maleByFemale: maleByFemale(input, options),
    meanKinship: exact(kinship, { 'fish in use': inUse.length }),
    byGeneration,
    rate: inbreedingRate(byGeneration),
    sharesOverTime,
    founders: retained.founders,
    ancestors: ancestors.ancestors,
    effective: effectiveNumbers(input, { retained, ancestors, kinship }),
    completeness: completenessOf(pedigree, inUse),
    overContributors: overContributors(pedigree, inUse),
    rarestFounders: rarestFounders(pedigree, inUse),
    generationInterval:
      input.bornOn === undefined ? null : generationInterval(pedigree, input.bornOn, line),
  };
  reached(1);
  return health;
}

interface Parts {
  readonly retained: ReturnType<typeof founderGenomeEquivalents>;
  readonly ancestors: ReturnType<typeof effectiveAncestors>;
  /** Mean kinship of the fish in use. */
  readonly kinship: number;
}

function effectiveNumbers(
  { pedigree, inUse, founders }: LineHealthInput,
  { retained, ancestors, kinship }: Parts,
): LineHealth['effective'] {
  const given = founders?.founders.length ?? 0;
  const tellable = given === 0;
  const options: FounderOptions = founders === undefined ? {} : { founders };
  return {
    founders: exact(effectiveFounders(retained.founders, options), {
      'founders with a part': retained.founders.length,
      'largest part': retained.founders[0]!.contribution,
    }),
    ancestors: exact(tellable ? ancestors.effective : null, {
      'ancestors counted': ancestors.ancestors.length,
      'largest part': ancestors.ancestors[0]?.marginal ?? 0,
      explained: ancestors.explained,
      'at least': ancestors.lowest,
      'at most': ancestors.highest,
    }),
    genomesByRetention: genomesByRetention(
      tellable ? retained.equivalents : null,
      retained.founders,
      retained.exact,
    ),
    genomesByKinship: exact(1 / (2 * kinship), { 'mean coancestry': kinship }),
    sizeFromInbreeding: tellable
      ? sizeFromInbreeding(pedigree, inUse)
      : exact(null, { 'founders given as related': given }),
    sizeFromSexes: sizeFromSexes(pedigree, inUse),
    sizeFromFamilies: sizeFromFamilies(pedigree, inUse),
  };
}

function exact(value: number | null, inputs: Record<string, number>): Figure {
  return { value, standardError: null, inputs };
}

function inbreedingOf(
  pedigree: Pedigree,
  inUse: ArrayLike<number>,
  { founders }: FounderOptions,
): LineHealth['inbreeding'] {
  const all = knownInbreeding(pedigree, founders);
  const values = Float64Array.from(inUse, (fish) => all[fish]!);
  const inbred = values.reduce((count, value) => count + Number(value > 0), 0);
  return {
    ...exact(values.reduce((sum, value) => sum + value, 0) / values.length, {
      'fish in use': values.length,
      'of them inbred': inbred,
    }),
    lowest: values.reduce((least, value) => Math.min(least, value), 1),
    highest: values.reduce((most, value) => Math.max(most, value), 0),
  };
}

function maleByFemale({ pedigree, inUse, sex }: LineHealthInput, options: FounderOptions): Figure {
  if (sex !== undefined) checkLength('sex', sex.length, inUse.length);
  const of = (wanted: Sex): number[] =>
    Array.from(inUse).filter((_, k) => (sex?.[k] ?? 'unknown') === wanted);
  const males = of('male');
  const females = of('female');
  return exact(meanCoancestryBetween(pedigree, males, females, options), {
    'males in use': males.length,
    'females in use': females.length,
    'of unknown sex, not counted': inUse.length - males.length - females.length,
  });
}

function genomesByRetention(
  equivalents: number | null,
  founders: readonly RetainedFounder[],
  isExact: boolean,
): Figure {
  // By the delta method, founders taken as independent: d f_g = f_g^2 x p^2 / r^2 x d r.
  const variance = founders.reduce(
    (sum, { contribution, retention, standardError }) =>
      retention > 0 ? sum + ((contribution / retention) ** 2 * standardError) ** 2 : sum,
    0,
  );
  const mean = founders.reduce((sum, { retention }) => sum + retention, 0) / founders.length;
  return {
    value: equivalents,
    standardError: isExact || equivalents === null ? null : equivalents ** 2 * Math.sqrt(variance),
    inputs: { 'founders with a part': founders.length, 'mean part of their genes left': mean },
  };
}

function sizeFromInbreeding(pedigree: Pedigree, inUse: ArrayLike<number>): Figure {
  const realised = realisedEffectiveSize(pedigree, inUse);
  return {
    value: realised.effectiveSize,
    standardError: realised.standardError,
    inputs: {
      'mean increase in F a generation': realised.meanIncrease,
      'fish counted': realised.counted,
      'fish with too short a pedigree': realised.leftOut,
    },
  };
}

function sizeFromSexes(pedigree: Pedigree, inUse: ArrayLike<number>): Figure {
  const sires = new Set<number>();
  const dams = new Set<number>();
  for (let k = 0; k < inUse.length; k++) {
    sires.add(pedigree.sire[inUse[k]!]!);
    dams.add(pedigree.dam[inUse[k]!]!);
  }
  sires.delete(-1);
  dams.delete(-1);
  const known = sires.size > 0 && dams.size > 0;
  return exact(known ? effectiveSizeFromSexes(sires.size, dams.size) : null, {
    'sires of the fish in use': sires.size,
    'dams of the fish in use': dams.size,
  });
}

/**
 * Families are the young in use of each parent. A parent without any is not seen, so the figure errs on the large side; with one
 * young to each parent there is no spread to judge by, and it is `null`.
 */
function sizeFromFamilies(pedigree: Pedigree, inUse: ArrayLike<number>): Figure {
  const young = new Map<number, number>();
  for (let k = 0; k < inUse.length; k++) {
    for (const parent of [pedigree.sire[inUse[k]!]!, pedigree.dam[inUse[k]!]!]) {
      if (parent >= 0) young.set(parent, (young.get(parent) ?? 0) + 1);
    }
  }
  const sizes = [...young.values()];
  const total = sizes.reduce((sum, size) => sum + size, 0);
  const mean = sizes.length === 0 ? 0 : total / sizes.length;
  const squares = sizes.reduce((sum, size) => sum + (size - mean) ** 2, 0);
  const judged = sizes.length >= 2 && total > sizes.length;
  return exact(judged ? effectiveSizeFromFamilies(sizes) : null, {
    'parents of the fish in use': sizes.length,
    'young in use of each, mean': mean,
    'young in use of each, variance': sizes.length === 0 ? 0 : squares / sizes.length,
  });
}

function completenessOf(pedigree: Pedigree, inUse: ArrayLike<number>): LineHealth['completeness'] {
  const all = completeGenerationEquivalents(pedigree);
  const values = Float64Array.from(inUse, (fish) => all[fish]!);
  return {
    meanEquivalents: values.reduce((sum, value) => sum + value, 0) / values.length,
    lowestEquivalents: values.reduce((least, value) => Math.min(least, value), Infinity),
    byGeneration: meanCompleteness(pedigree, inUse, GENERATIONS_SHOWN),
  };
}
