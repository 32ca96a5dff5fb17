import { coancestryBlock } from '@linewright/kinship';
import { buildPedigree } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { placeAmong } from './conditions.service.js';

/** A line of so many fish from six founders, males and females in turn, each of two earlier ones. */
const line = (size: number) => {
  const ids = Array.from({ length: size }, (_, k) => `f${k}`);
  const of = (k: number, step: number, sex: 0 | 1): string | null =>
    k < 6 ? null : ids[2 * ((k * step) % Math.floor(k / 2)) + sex]!;
  const rows = ids.map((id, k) => ({ id, sire: of(k, 7, 0), dam: of(k, 11, 1) }));
  return { ids, pedigree: buildPedigree(rows) };
};

describe('the place of a fish in its line', () => {
  it('is what the coancestries of all with all give, in a line of 450', () => {
    const { ids, pedigree } = line(450);
    const places = ids.map((id) => pedigree.indexOf(id));
    const block = coancestryBlock(pedigree, places, places);
    const meanOf = (chosen: number[]): number =>
      chosen.reduce(
        (sum, i) => sum + chosen.reduce((row, j) => row + block[i * ids.length + j]!, 0),
        0,
      ) /
      chosen.length ** 2;
    const all = ids.map((_, k) => k);
    for (const at of [3, 200, 449]) {
      const told = placeAmong(at, pedigree, ids);
      const means = all.map(
        (i) => all.reduce((sum, j) => sum + block[i * ids.length + j]!, 0) / 450,
      );
      expect(told.of).toBe(450);
      expect(told.meanCoancestry).toBeCloseTo(means[at]!, 12);
      expect(told.place).toBe(1 + means.filter((mean) => mean < means[at]! - 1e-12).length);
      expect(told.riseWithout).toBeCloseTo(meanOf(all.filter((k) => k !== at)) - meanOf(all), 12);
    }
  });
});
