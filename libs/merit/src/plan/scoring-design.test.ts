import { describe, expect, it } from 'vitest';
import { normals, seededChance } from '../values/draw-scores.js';
import { broodsForError, heritabilityError } from './scoring-design.js';

/** Heritability from the mean squares between and within simulated broods. */
function estimate(normal: () => number, h: number, broods: number, perBrood: number): number {
  let [within, sum, square] = [0, 0, 0];
  for (let brood = 0; brood < broods; brood++) {
    const shared = Math.sqrt(h / 2) * normal();
    const young = Array.from({ length: perBrood }, () => shared + Math.sqrt(1 - h / 2) * normal());
    const mean = young.reduce((a, b) => a + b, 0) / perBrood;
    within += young.reduce((a, b) => a + (b - mean) ** 2, 0);
    sum += mean;
    square += mean ** 2;
  }
  const msWithin = within / (broods * (perBrood - 1));
  const msBetween = (perBrood * (square - sum ** 2 / broods)) / (broods - 1);
  return (2 * (msBetween - msWithin)) / (msBetween + (perBrood - 1) * msWithin);
}

describe('heritabilityError', () => {
  it.each([
    [0.3, 25, 12],
    [0.6, 40, 6],
  ])('is what estimates scatter by in simulated broods (h2 %f, %i broods of %i)', (h, s, n) => {
    const normal = normals(seededChance(5));
    const found = Array.from({ length: 3000 }, () => estimate(normal, h, s, n));
    const mean = found.reduce((a, b) => a + b, 0) / found.length;
    const deviation = Math.sqrt(found.reduce((a, b) => a + (b - mean) ** 2, 0) / found.length);
    // Of 3,000 the deviation is known to 1.3 %; the formula is that of many broods.
    expect(deviation / heritabilityError(h, s, n)).toBeGreaterThan(0.93);
    expect(deviation / heritabilityError(h, s, n)).toBeLessThan(1.07);
  });

  it('tells nothing of one brood, and refuses what cannot be', () => {
    expect(heritabilityError(0.3, 1, 12)).toBe(Infinity);
    expect(() => heritabilityError(1.2, 9, 12)).toThrow(/heritability of 1.2/);
    expect(() => heritabilityError(0.3, 9, 1)).toThrow(/two scored fish/);
    expect(() => broodsForError(0.3, 12, 0)).toThrow(/above 0/);
  });

  it('is turned into a number of broods', () => {
    const broods = broodsForError(0.3, 12, 0.1);
    expect(heritabilityError(0.3, broods, 12)).toBeLessThanOrEqual(0.1);
    expect(heritabilityError(0.3, broods - 1, 12)).toBeGreaterThan(0.1);
  });
});
