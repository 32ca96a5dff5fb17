import { MeritError } from '../merit-error.js';
import { Equations } from '../mixed/equations.js';
import { animalModel, type AnimalScores } from '../values/animal-model.js';
import { breedingValues, solveAt } from '../values/breeding-values.js';
import type { Posterior } from '../values/posterior.js';
import { heritabilityInformation } from './expected-information.js';
import { plannedScores, type ScorePlan } from './planned-scores.js';

/** How far off something is now, and how far off it is expected to be with a plan's scores: standard deviations. */
export interface NowAndThen {
  readonly now: number;
  readonly then: number;
}

/** What a plan is expected to narrow. */
export interface Narrowing {
  readonly scoresNow: number;
  readonly scoresAdded: number;
  readonly heritability: NowAndThen;
  /** Mean over the fish that matter, in the trait's unit. */
  readonly values: NowAndThen;
}

/**
 * By how much a plan's scores would narrow what is known, before one of them is taken: reckoned from where scores would stand, not from what
 * they would be.
 *
 * Heritability: 1 / variance grows by the expected information of the plan at the mean of what is known now. Values: error variances at that
 * mean shrink as the equations with and without the plan's rows say, and what the heritability leaves open shrinks with it. An expectation:
 * what comes may narrow more or less. One trait.
 * Cost: two factorisations with errors, and some solutions.
 * @param posterior of the same scores.
 * @param options `matter`: indices of the fish whose values matter, all unless given; `seed` of the draws.
 * @throws MeritError MERIT_OUT_OF_RANGE, MERIT_TOO_LARGE.
 */
export function narrowedBy(
  scores: AnimalScores,
  posterior: Posterior,
  plan: ScorePlan,
  options: NarrowingOptions = {},
): Narrowing {
  return narrowedByEach(scores, posterior, options)(plan);
}

export interface NarrowingOptions {
  readonly matter?: ArrayLike<number>;
  readonly seed?: number;
}

/** As {@link narrowedBy} for one plan after another: what the scores tell as they are is worked out once. */
export function narrowedByEach(
  scores: AnimalScores,
  posterior: Posterior,
  { matter, seed = 1 }: NarrowingOptions = {},
): (plan: ScorePlan) => Narrowing {
  const of = matter ?? Array.from({ length: scores.pedigree.size }, (_, i) => i);
  for (let k = 0; k < of.length; k++)
    if (!(of[k]! >= 0 && of[k]! < scores.pedigree.size))
      throw new MeritError(
        'MERIT_OUT_OF_RANGE',
        `There is no fish ${of[k]}; indices run from 0 to ${scores.pedigree.size - 1}.`,
      );
  const full = withoutGaps(scores);
  const shares = posterior.meanShares;
  const before = designAt(full, shares, seed);
  return (plan) => {
    const planned = plannedScores(full, plan);
    // The same draws for what both hold in common, so that their difference is the plan's.
    const after = designAt(planned.scores, shares, seed);
    return {
      scoresNow: before.scores,
      scoresAdded: planned.added,
      ...narrowed(posterior, before, after, of),
    };
  };
}

type Design = ReturnType<typeof designAt>;

function narrowed(
  { heritability, standardError, withinVariance }: Posterior,
  before: Design,
  after: Design,
  of: ArrayLike<number>,
): Pick<Narrowing, 'heritability' | 'values'> {
  const sdNow = heritability.standardDeviation;
  const gained = Math.max(0, after.information - before.information);
  const sdThen = 1 / Math.sqrt(1 / sdNow ** 2 + gained);
  let [now, then] = [0, 0];
  for (let k = 0; k < of.length; k++) {
    const i = of[k]!;
    const total = standardError[i]! ** 2;
    const within = withinVariance[i]!;
    const shrunk = (after.standardError[i]! / before.standardError[i]!) ** 2;
    now += Math.sqrt(total) / of.length;
    then += Math.sqrt(within * shrunk + (total - within) * (sdThen / sdNow) ** 2) / of.length;
  }
  return { heritability: { now: sdNow, then: sdThen }, values: { now, then } };
}

/** Rows without a score tell nothing and are left out, so that the plan's rows follow the scores. */
function withoutGaps(scores: AnimalScores): AnimalScores {
  const [{ values }] = scores.traits as [AnimalScores['traits'][number]];
  if (!values.some((value) => Number.isNaN(value))) return scores;
  const kept = <T extends Int32Array | Float64Array>(rows: T): T =>
    rows.filter((_, row) => !Number.isNaN(values[row]!)) as T;
  return {
    ...scores,
    fish: kept(scores.fish),
    traits: scores.traits.map(({ name, values: of }) => ({ name, values: kept(of) })),
    ...(scores.fixed && {
      fixed: scores.fixed.map((column) =>
        column.kind === 'classes'
          ? { ...column, codes: kept(column.codes) }
          : { ...column, values: kept(column.values) },
      ),
    }),
    ...(scores.shared && {
      shared: scores.shared.map((column) => ({ ...column, codes: kept(column.codes) })),
    }),
    ...(scores.weights && { weights: kept(scores.weights) }),
  };
}

/** Information on the heritability, and errors of values, when the variances are these shares of 1. */
function designAt(scores: AnimalScores, shares: readonly number[], seed: number) {
  const animal = animalModel(scores);
  const residual = 1 - shares.reduce((sum, share) => sum + share, 0);
  const variances = { random: shares.map((share) => [[share]]), residual: [[residual]] };
  const solved = solveAt(animal, new Equations(animal.model), variances);
  const [values] = breedingValues(solved);
  return {
    scores: solved.equations.scores,
    standardError: values!.standardError,
    information: heritabilityInformation(animal, solved.fit, seed),
  };
}
