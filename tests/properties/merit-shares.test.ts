import {
  solveAtRatios,
  valuesOverHeritability,
  writtenModel,
  type AnimalScores,
} from '@linewright/merit';
import { pedigreeFromArrays } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { Chance } from './simulated-line.js';

const SEED = 20_261_201;
const TRUE = 0.3;

/** Twelve broods of eight from pairs of their own, each young looked at twice: `rest` of the variance is between two looks. */
const lookedAtTwice = (chance: Chance, rest: number, perBrood = 8): AnimalScores => {
  const [pairs, broods] = [24, 12];
  const size = pairs + broods * perBrood;
  const sire = new Int32Array(size).fill(-1);
  const dam = new Int32Array(size).fill(-1);
  const value = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    const brood = Math.floor((i - pairs) / perBrood);
    if (i >= pairs) [sire[i], dam[i]] = [2 * brood, 2 * brood + 1];
    const parents = i < pairs ? 0 : (value[sire[i]!]! + value[dam[i]!]!) / 2;
    value[i] = parents + Math.sqrt(i < pairs ? TRUE : TRUE / 2) * chance.normal();
  }
  const lasting = value.map((v) => 10 + v + Math.sqrt(1 - TRUE - rest) * chance.normal());
  const fish = Array.from({ length: size - pairs }, (_, k) => [pairs + k, pairs + k]).flat();
  return {
    pedigree: pedigreeFromArrays(sire, dam),
    fish: Int32Array.from(fish),
    traits: [
      {
        name: 'y',
        values: Float64Array.from(fish, (i) => lasting[i]! + Math.sqrt(rest) * chance.normal()),
      },
    ],
    permanent: true,
  };
};

/** The same integral over a plain grid that is fine where the rest is small: even steps of its logarithm. */
const byFineGrid = (scores: AnimalScores): number => {
  const { animal, equations } = writtenModel(scores);
  const points: { h: number; log: number }[] = [];
  for (let a = 0; a < 20; a++) {
    const h = (a + 0.5) / 20;
    for (let b = 0; b < 80; b++) {
      const left = Math.exp(-7 * ((b + 0.5) / 80));
      const residual = (1 - h) * left;
      const ratios = [h / residual, ((1 - h) * (1 - left)) / residual];
      // A step of the logarithm is worth what is left of the part.
      points.push({
        h,
        log: solveAtRatios(animal, equations, ratios).logLikelihood + Math.log(left),
      });
    }
  }
  const best = Math.max(...points.map(({ log }) => log));
  const weights = points.map(({ log }) => Math.exp(log - best));
  const all = weights.reduce((sum, w) => sum + w, 0);
  return points.reduce((sum, { h }, k) => sum + (h * weights[k]!) / all, 0);
};

describe(`shares of further terms, seed ${SEED}`, () => {
  it.each([0.3, 0.1, 0.03, 0.01])(
    'are gone over where they lie, with %s of the variance between two looks at a fish',
    (rest) => {
      const scores = lookedAtTwice(new Chance(SEED), rest, 5);
      const { heritability } = valuesOverHeritability(scores);
      expect(Math.abs(heritability.mean - byFineGrid(scores))).toBeLessThan(0.03);
    },
  );

  it('let the band of the heritability hold the truth, however alike two looks are', () => {
    const held = [0.1, 0.01].flatMap((rest) =>
      Array.from({ length: 10 }, (_, k) => {
        const scores = lookedAtTwice(new Chance(SEED + k), rest);
        const { low, high } = valuesOverHeritability(scores).heritabilityBand(0.95);
        return low <= TRUE && TRUE <= high;
      }),
    );
    // 19 of 20 are expected; fewer than 16 come once in 400 times.
    expect(held.filter(Boolean).length).toBeGreaterThanOrEqual(16);
  });

  it('weigh no more points than asked for', () => {
    let points = 0;
    const scores = lookedAtTwice(new Chance(SEED), 0.1, 4);
    const onPoint = () => ++points > 0;
    valuesOverHeritability(scores, { cells: 10, pointsOfOthers: 7, onPoint });
    expect(points).toBeGreaterThan(10);
    // A second, finer grid is made at most once for so few fish.
    expect(points).toBeLessThanOrEqual(2 * 10 * 7);
  });
});
