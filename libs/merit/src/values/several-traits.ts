import { MeritError } from '../merit-error.js';
import { Equations } from '../mixed/equations.js';
import type { Variances } from '../mixed/mixed-model.js';
import { choleskyOf, squareOf } from '../mixed/small-matrix.js';
import { animalModel, type AnimalScores } from './animal-model.js';
import { fitted, scoresOf } from '../mixed/fit.js';
import type { MeritNote } from './notes.js';
import { solveAtRatios } from './breeding-values.js';

/** What is given of several traits. */
export interface GivenTraits {
  /** Heritability of each trait, above 0 and below 1. */
  readonly heritabilities: readonly number[];
  /** Genetic correlations, traits by traits; 0 between all unless given. */
  readonly geneticCorrelations?: readonly (readonly number[])[];
}

/** Variances for several traits at given heritabilities. */
export interface TraitsAtHeritability {
  readonly variances: Variances;
  readonly notes: readonly MeritNote[];
}

/**
 * Variances of several traits at given heritabilities and genetic correlations, for {@link solveByWork}. Each trait's scale is its own, estimated
 * by REML at its heritability alone; residual correlations are what is left of the correlation of scores (fixed part taken out) of fish
 * that have both traits, r_E = (r_P - r_G h1 h2) / sqrt((1 - h1^2)(1 - h2^2)), where h^2 is the heritability. Scores of unlike fish in both traits say nothing of
 * r_P: fewer than ten together leave it as if r_E were 0.
 *
 * Source: Falconer & Mackay (1996) Introduction to Quantitative Genetics, 4th ed., chapter 19 (r_P of r_G and r_E).
 * The additive term is the only random one. Cost: a factorisation a trait.
 * @throws MeritError MERIT_OUT_OF_RANGE, MERIT_LENGTH_MISMATCH; MERIT_NOT_DEFINITE for correlations that cannot go together.
 */
export function variancesAtHeritabilities(
  scores: AnimalScores,
  { heritabilities, geneticCorrelations }: GivenTraits,
): TraitsAtHeritability {
  const count = scores.traits.length;
  const genetic = geneticCorrelations ?? identity(count);
  expectGiven(scores, heritabilities, genetic);
  const each = scores.traits.map((trait, t) => alone(scores, trait, heritabilities[t]!));
  const residual = identity(count);
  const notes: MeritNote[] = [];
  for (let i = 0; i < count; i++)
    for (let j = 0; j < i; j++) {
      const { correlation, together } = phenotypic(each[i]!.deviations, each[j]!.deviations);
      const [hi, hj] = [heritabilities[i]!, heritabilities[j]!];
      const left =
        together < FEWEST_TOGETHER
          ? 0
          : (correlation - genetic[i]![j]! * Math.sqrt(hi * hj)) / Math.sqrt((1 - hi) * (1 - hj));
      const held = Math.max(-MOST_CORRELATED, Math.min(MOST_CORRELATED, left));
      residual[i]![j] = residual[j]![i] = held;
      const names = `"${scores.traits[j]!.name}" and "${scores.traits[i]!.name}"`;
      if (together < FEWEST_TOGETHER)
        notes.push({
          code: 'MERIT_FEW_TOGETHER',
          message: `Only ${together} looks have both ${names}: what they share beyond inheritance was taken as nothing.`,
        });
      else if (held !== left)
        notes.push({
          code: 'MERIT_CORRELATION_DOUBTFUL',
          message: `The given heritabilities and genetic correlation of ${names} do not fit how their scores go together (${correlation.toFixed(2)}): what they share beyond inheritance was held at ${held.toFixed(2)}.`,
        });
    }
  const g = each.map(({ variance }, t) => Math.sqrt(variance * heritabilities[t]!));
  const e = each.map(({ variance }, t) => Math.sqrt(variance * (1 - heritabilities[t]!)));
  const between = definite(residual);
  const scaled = (by: readonly number[], r: readonly (readonly number[])[]) =>
    r.map((row, i) => row.map((value, j) => value * by[i]! * by[j]!));
  return { variances: { random: [scaled(g, genetic)], residual: scaled(e, between) }, notes };
}

const FEWEST_TOGETHER = 10;
const MOST_CORRELATED = 0.95;

const identity = (size: number): number[][] =>
  Array.from({ length: size }, (_, i) => Array.from({ length: size }, (__, j) => +(i === j)));

/** Whole variance of one trait at its heritability, and what the fixed part leaves of its scores. */
function alone(
  scores: AnimalScores,
  trait: AnimalScores['traits'][number],
  heritability: number,
): { readonly variance: number; readonly deviations: Float64Array } {
  const animal = animalModel({ ...scores, traits: [trait] });
  const equations = new Equations(animal.model);
  const { variances, solution } = solveAtRatios(animal, equations, [
    heritability / (1 - heritability),
  ]);
  const fixedOnly = solution.slice().fill(0, equations.design.equations.length);
  const [expected] = fitted(equations, fixedOnly);
  const [values] = scoresOf(equations);
  return {
    variance: variances.random[0]![0]![0]! + variances.residual[0]![0]!,
    deviations: Float64Array.from(trait.values, (score, row) =>
      Number.isNaN(score) ? NaN : values![row]! - expected![row]!,
    ),
  };
}

function phenotypic(a: Float64Array, b: Float64Array) {
  let [together, ab, aa, bb] = [0, 0, 0, 0];
  a.forEach((x, row) => {
    const y = b[row]!;
    if (Number.isNaN(x) || Number.isNaN(y)) return;
    together++;
    ab += x * y;
    aa += x * x;
    bb += y * y;
  });
  return { together, correlation: together === 0 ? 0 : ab / Math.sqrt(aa * bb) };
}

/** Correlations estimated pair by pair need not go together: they are drawn towards 0 until they do. */
function definite(correlations: number[][]): number[][] {
  for (let share = 1; ; share *= 0.9) {
    const tried = correlations.map((row, i) => row.map((r, j) => (i === j ? 1 : share * r)));
    if (choleskyOf(squareOf(tried), tried.length) !== null) return tried;
  }
}

function expectGiven(
  { traits, shared, permanent }: AnimalScores,
  heritabilities: readonly number[],
  genetic: readonly (readonly number[])[],
): void {
  if (heritabilities.length !== traits.length)
    throw new MeritError(
      'MERIT_LENGTH_MISMATCH',
      `${heritabilities.length} heritabilities are given for ${traits.length} traits: give one a trait.`,
    );
  if (permanent === true || (shared ?? []).length > 0)
    throw new MeritError(
      'MERIT_OUT_OF_RANGE',
      'Heritabilities of several traits can be given where the breeding value is the only random effect: ask without broods and repeated looks, or give no heritability.',
    );
  heritabilities.forEach((heritability, t) => {
    if (heritability > 0 && heritability < 1) return;
    throw new MeritError(
      'MERIT_OUT_OF_RANGE',
      `The heritability ${heritability} of "${traits[t]!.name}" must lie between 0 and 1, and be neither.`,
      { heritability },
    );
  });
  const isSquare =
    genetic.length === traits.length &&
    genetic.every(
      (row, i) =>
        row.length === traits.length && row[i] === 1 && row.every((r, j) => r === genetic[j]![i]),
    );
  if (!isSquare)
    throw new MeritError(
      'MERIT_OUT_OF_RANGE',
      'Genetic correlations are a table of traits by traits, the same both ways, with 1 of each trait with itself.',
    );
  if (choleskyOf(squareOf(genetic), genetic.length) === null)
    throw new MeritError(
      'MERIT_NOT_DEFINITE',
      'These genetic correlations cannot go together: each must lie between -1 and 1, and two traits that both go with a third go together too.',
    );
}
