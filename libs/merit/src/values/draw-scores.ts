import { withinFamilyVariance } from '@linewright/kinship';
import { seededChance, type Chance } from '@linewright/pedigree';
import { MeritError } from '../merit-error.js';
import type { Variances } from '../mixed/mixed-model.js';
import { choleskyOf, squareOf } from '../mixed/small-matrix.js';
import type { AnimalModel } from './animal-model.js';

/** Scores as they might have been, with the breeding values behind them. */
export interface DrawnScores {
  /** By `fish * slots + slot` of the additive term. */
  readonly breedingValues: Float64Array;
  /** By trait and row; 0 where the model has no score. */
  readonly scores: readonly Float64Array[];
}

/** Standard normal numbers by Box and Muller. */
export const normals =
  (chance: Chance): (() => number) =>
  () =>
    Math.sqrt(-2 * Math.log(1 - chance())) * Math.cos(2 * Math.PI * chance());

/**
 * Draws scores of the model's rows under its variances, fixed effects and groups at 0. A seed draws the same effects for the same fish, levels
 * and rows when others are added behind them.
 *
 * Cost: linear. @throws MeritError MERIT_NOT_DEFINITE.
 */
export function scoreDrawer(
  { model, pedigree, inbreeding }: AnimalModel,
  variances: Variances,
): (seed: number) => DrawnScores {
  const within = withinFamilyVariance(pedigree, inbreeding);
  const roots = model.random.map(({ name }, term) => rootOf(variances.random[term]!, name));
  const residualRoot = rootOf(variances.residual, 'residual');
  const effects = (term: number, normal: () => number): Float64Array => {
    const { levels, slots } = model.random[term]!;
    const size = slots.length;
    const drawn = new Float64Array(levels * size);
    const isAdditive = term === 0;
    // Behind the fish stand genetic groups, which are no random effects.
    const own = isAdditive ? pedigree.size : levels;
    for (let level = 0; level < own; level++) {
      correlated(roots[term]!, size, normal, isAdditive ? Math.sqrt(within[level]!) : 1, (i, x) => {
        drawn[level * size + i] = x;
      });
      if (!isAdditive) continue;
      for (const parent of [pedigree.sire[level]!, pedigree.dam[level]!])
        for (let i = 0; parent >= 0 && i < size; i++)
          drawn[level * size + i]! += 0.5 * drawn[parent * size + i]!;
    }
    return drawn;
  };
  const streams = 1 + model.random.length;
  return (seed) => {
    const stream = (k: number): (() => number) => normals(seededChance(seed * streams + k));
    const all = model.random.map((_, term) => effects(term, stream(term + 1)));
    const normal = stream(0);
    const scores = model.traits.map(() => new Float64Array(model.rows));
    for (let row = 0; row < model.rows; row++)
      correlated(
        residualRoot,
        scores.length,
        normal,
        1 / Math.sqrt(model.weights?.[row] ?? 1),
        (t, x) => {
          scores[t]![row] = x;
        },
      );
    model.random.forEach(({ slots }, term) =>
      slots.forEach(({ trait, level, coefficient }, slot) => {
        for (let row = 0; row < model.rows; row++)
          if (level[row]! >= 0)
            scores[trait]![row]! +=
              all[term]![level[row]! * slots.length + slot]! * (coefficient?.[row] ?? 1);
      }),
    );
    model.traits.forEach(({ values }, t) => {
      for (let row = 0; row < model.rows; row++)
        if (Number.isNaN(values[row]!)) scores[t]![row] = 0;
    });
    return { breedingValues: all[0]!, scores };
  };
}

function rootOf(matrix: readonly (readonly number[])[], name: string): Float64Array {
  const root = choleskyOf(squareOf(matrix), matrix.length);
  if (root !== null) return root;
  throw new MeritError(
    'MERIT_NOT_DEFINITE',
    `The variances of "${name}" do not fit together: each must lie above 0, and no correlation may reach 1 or -1.`,
    { name },
  );
}

function correlated(
  root: Float64Array,
  size: number,
  normal: () => number,
  factor: number,
  take: (i: number, value: number) => void,
): void {
  if (size === 1) {
    take(0, factor * root[0]! * normal());
    return;
  }
  const z = Array.from({ length: size }, normal);
  for (let i = 0; i < size; i++) {
    let sum = 0;
    for (let k = 0; k <= i; k++) sum += root[i * size + k]! * z[k]!;
    take(i, factor * sum);
  }
}
