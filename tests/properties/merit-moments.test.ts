import {
  classesOverHeritability,
  MomentsSolver,
  solveThreshold,
  type ThresholdParts,
} from '@linewright/merit';
import { pedigreeFromArrays } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { Chance } from './simulated-line.js';

const seed = 20_261_140;

/** Broods of young in ordered classes; each class is seen. */
function broods(chance: Chance, classes: number, sizes: readonly number[]) {
  const brood = sizes.flatMap((size, k) => new Array<number>(size).fill(k));
  for (;;) {
    const shared = sizes.map(() => chance.normal());
    const scores = brood.map((k) =>
      Math.max(0, Math.min(classes - 1, Math.floor(shared[k]! + chance.normal() + classes / 2))),
    );
    if (new Set(scores).size === classes) return { brood, scores };
  }
}

const modelOf = (brood: number[], scores: number[], classes: number, levels: number) =>
  ({
    scores: Int32Array.from(scores),
    classes,
    fixed: [],
    random: [{ name: 'brood', levels, slots: [{ trait: 0, level: Int32Array.from(brood) }] }],
  }) satisfies ThresholdParts;

/** P(Z < z) by its series (Abramowitz & Stegun 1964, 26.2.11), written apart. */
function below(z: number): number {
  if (Math.abs(z) > 7) return z > 0 ? 1 : 0;
  let [term, sum] = [z, z];
  for (let k = 3; Math.abs(term) > 1e-17 * Math.abs(sum); k += 2) sum += term *= (z * z) / k;
  return 0.5 + (sum * Math.exp((-z * z) / 2)) / Math.sqrt(2 * Math.PI);
}

const steps = (from: number, to: number, count: number): number[] =>
  Array.from({ length: count }, (_, k) => from + ((k + 0.5) * (to - from)) / count);

/** Everything integrated by sums over even steps: ln of the density of the scores, and mean and variance of the first brood. */
function exact(brood: number[], scores: number[], classes: number, variance: number) {
  const levels = Math.max(...brood) + 1;
  const at = steps(-5, 5, 60).map((z) => z * Math.sqrt(variance));
  const weight = at.map(
    (b) =>
      (Math.exp((-b * b) / (2 * variance)) / Math.sqrt(2 * Math.PI * variance)) * (at[1]! - at[0]!),
  );
  const line = steps(-4.5, 4.5, 75);
  const each = line[1]! - line[0]!;
  const ways =
    classes === 2
      ? line.map((t) => [t])
      : line.flatMap((t) => line.filter((u) => u > t).map((u) => [t, u]));
  const counts = Array.from({ length: levels }, (_, k) =>
    Array.from(
      { length: classes },
      (_c, c) => scores.filter((s, r) => s === c && brood[r] === k).length,
    ),
  );
  // Chances by threshold and place of the brood.
  const table = new Map(line.map((t) => [t, at.map((b) => below(t - b))]));
  let [all, first, second] = [0, 0, 0];
  for (const thresholds of ways) {
    let product = each ** (classes - 1);
    let [m1, m2] = [0, 0];
    counts.forEach((seen, k) => {
      let [sum, sum1, sum2] = [0, 0, 0];
      at.forEach((b, j) => {
        let p = weight[j]!;
        for (let c = 0; c < classes; c++) {
          const high = c === classes - 1 ? 1 : table.get(thresholds[c]!)![j]!;
          const low = c === 0 ? 0 : table.get(thresholds[c - 1]!)![j]!;
          p *= (high - low) ** seen[c]!;
        }
        sum += p;
        sum1 += p * b;
        sum2 += p * b * b;
      });
      if (k === 0) [m1, m2] = [sum1 / sum, sum2 / sum];
      product *= sum;
    });
    all += product;
    first += product * m1;
    second += product * m2;
  }
  const mean = first / all;
  return { logMarginal: Math.log(all), mean, variance: second / all - mean ** 2 };
}

describe(`classes with everything integrated, seed ${seed}`, () => {
  it.each([
    [2, 0.2],
    [2, 1],
    [2, 4],
    [3, 0.2],
    [3, 1],
    [3, 4],
  ])('are near the exact integral, %i classes, variance %f', (classes, variance) => {
    for (let line = 0; line < 4; line++) {
      const chance = new Chance(seed + 10 * classes + line);
      const sizes = [3, 5, 2, 6, 4, 5];
      const { brood, scores } = broods(chance, classes, sizes);
      const model = modelOf(brood, scores, classes, sizes.length);
      const moments = new MomentsSolver(model).at([variance]);
      const truth = exact(brood, scores, classes, variance);
      const first = moments.equations.firstOfTerm[0]!;
      const deviation = Math.sqrt(truth.variance);
      expect(Math.abs(moments.logMarginal - truth.logMarginal)).toBeLessThan(0.15);
      expect(Math.abs(moments.mean[first]! - truth.mean) / deviation).toBeLessThan(0.01);
      expect(moments.variance[first]! / truth.variance).toBeGreaterThan(0.91);
      expect(moments.variance[first]! / truth.variance).toBeLessThan(1.001);
      if (variance < 1) continue;
      // The joint mode lies further out than the mean does.
      const mode = solveThreshold({ ...model, variances: [variance] });
      const off = (logMarginal: number) => Math.abs(logMarginal - truth.logMarginal);
      expect(off(moments.logMarginal)).toBeLessThan(0.04 + 0.6 * off(mode.logMarginal));
      expect(Math.abs(moments.mean[first]! - truth.mean)).toBeLessThan(
        0.3 * Math.abs(mode.solution[first]! - truth.mean),
      );
    }
  });

  it.each([2, 3, 5])(
    'say nothing of the heritability of fish without relatives, %i classes',
    (classes) => {
      const size = 30;
      const chance = new Chance(seed + classes);
      const { heritability } = classesOverHeritability({
        pedigree: pedigreeFromArrays(new Int32Array(size).fill(-1), new Int32Array(size).fill(-1)),
        fish: Int32Array.from({ length: size }, (_, k) => k),
        trait: 'fin',
        scores: Int32Array.from({ length: size }, (_, k) =>
          k < classes ? k : Math.floor(classes * chance.next()),
        ),
        classes,
      });
      expect(heritability.mean).toBeCloseTo(0.5, 2);
      expect(heritability.fromPrior).toBeGreaterThan(0.99);
    },
  );

  it('refuse a level whose fish all show the class at one end, rows of several looks, and a variance of 0', () => {
    const { brood, scores } = broods(new Chance(seed), 2, [6, 6]);
    const model = modelOf(brood, scores, 2, 2);
    const codes = Int32Array.from(scores, (score, row) => (score === 1 && row < 6 ? 1 : 0));
    const apart = { kind: 'classes', name: 'tank', levels: ['a', 'b'], codes } as const;
    const told = (parts: ThresholdParts, variance: number) => () =>
      new MomentsSolver(parts).at([variance]);
    expect(told({ ...model, fixed: [apart] }, 1)).toThrow('grow without end');
    expect(() => solveThreshold({ ...model, fixed: [apart], variances: [1] })).toThrow(
      'grow without end',
    );
    // Taken to be of some size before, it is finite.
    const solved = new MomentsSolver({ ...model, fixed: [apart], fixedDeviation: 2 }).at([1]);
    const effect = Math.abs(solved.mean[1]!);
    expect(effect).toBeGreaterThan(1);
    expect(effect).toBeLessThan(2 * Math.SQRT2 * 2);
    expect(told({ ...model, counts: new Float64Array(12).fill(1) }, 1)).toThrow('One look a row');
    expect(told(model, 0)).toThrow('above 0');
  });
});
