import { pedigreeFromArrays } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { founderSharesOverTime, overContributors, rarestFounders } from './balance.js';
import { founderContributions } from './founders.js';
import { generationInterval } from './generation-interval.js';
import {
  inbreedingByGeneration,
  inbreedingRate,
  meanCompleteness,
} from './inbreeding-by-generation.js';

// Founders 0 to 3. Males 0 and 2; 4, 5, 6 = 0 x 1; 7 = 2 x 3; 8 = 4 x 7; 9 = 5 x 6 (full sibs).
const line = pedigreeFromArrays(
  Int32Array.from([-1, -1, -1, -1, 0, 0, 0, 2, 4, 5]),
  Int32Array.from([-1, -1, -1, -1, 1, 1, 1, 3, 7, 6]),
);

describe('overContributors', () => {
  it('names the sire and the dam with more than an equal part of the young', () => {
    const { sires, dams, founders } = overContributors(line, [4, 5, 6, 7]);
    expect(sires).toEqual([
      { fish: 0, unknownParent: false, share: 3 / 8, equalShare: 1 / 4, young: 3 },
    ]);
    expect(dams.map((entry) => entry.fish)).toEqual([1]);
    expect(founders.map((entry) => [entry.fish, entry.share])).toEqual([
      [0, 3 / 8],
      [1, 3 / 8],
    ]);
  });

  it('names no one when all have the same', () => {
    expect(overContributors(line, [4, 7])).toEqual({ founders: [], sires: [], dams: [] });
  });
});

describe('rarestFounders', () => {
  it('names the fish that carry most of the founder with the smallest part', () => {
    const [rarest] = rarestFounders(line, [5, 8, 9], { founders: 1 });
    expect(rarest).toMatchObject({ founder: 3, unknownParent: false });
    expect(rarest!.contribution).toBeCloseTo(1 / 12, 12);
    expect(rarest!.carriers).toEqual([{ fish: 8, share: 1 / 4 }]);
    expect(rarest!.moreAsMuch).toBe(0);
  });

  it('tells how many more carry as much as the last one listed, and no one who carries less', () => {
    // A sire and eight dams, each with one young of him; the ninth young is of one of these.
    const sires = [-1, ...Array.from({ length: 8 }, () => 0), 1];
    const half = pedigreeFromArrays(Int32Array.from(sires), new Int32Array(10).fill(-1));
    const [rarest] = rarestFounders(half, [1, 2, 3, 4, 5, 6, 7, 8, 9], {
      founders: 20,
      carriers: 5,
    }).filter((one) => one.founder === 0 && !one.unknownParent);
    expect(rarest!.carriers.map(({ share }) => share)).toEqual([0.5, 0.5, 0.5, 0.5, 0.5]);
    expect(rarest!.moreAsMuch).toBe(3);
  });
});

describe('founderContributions', () => {
  it('counts an unknown parent as a founder of its own', () => {
    const half = pedigreeFromArrays(Int32Array.from([-1, 0]), Int32Array.from([-1, -1]));
    expect(founderContributions(half, [1])).toEqual([
      { founder: 0, unknownParent: false, contribution: 1 / 2 },
      { founder: 1, unknownParent: true, contribution: 1 / 2 },
    ]);
  });

  it('refuses an empty group and a fish that is not there', () => {
    expect(() => founderContributions(line, [])).toThrow(
      expect.objectContaining({ code: 'KINSHIP_BAD_ARGUMENT' }),
    );
    expect(() => founderContributions(line, [10])).toThrow(
      expect.objectContaining({ code: 'KINSHIP_BAD_INDEX' }),
    );
  });
});

describe('figures over generations', () => {
  const generation = [0, 0, 0, 0, 1, 1, 1, 1, 2, 2];

  it('gives the founders’ mean shares for each generation', () => {
    const over = founderSharesOverTime(line, [4, 5, 6, 7, 8, 9], generation);
    expect(over.generations).toEqual([1, 2]);
    expect(over.founders.map((source) => source.founder)).toEqual([0, 1, 2, 3]);
    expect([...over.shares]).toEqual([3 / 8, 3 / 8, 1 / 8, 1 / 8, 3 / 8, 3 / 8, 1 / 8, 1 / 8]);
  });

  it('gives F by generation and by line', () => {
    const names = ['a', 'a', 'b', 'b', 'a', 'a', 'a', 'b', 'a', 'a'];
    const rows = inbreedingByGeneration(line, { generation, line: names });
    expect(rows.map((row) => [row.line, row.generation, row.count, row.mean])).toEqual([
      ['a', 0, 2, 0],
      ['a', 1, 3, 0],
      ['a', 2, 2, 1 / 8],
      ['b', 0, 2, 0],
      ['b', 1, 1, 0],
    ]);
    expect(rows[2]).toMatchObject({ lowest: 0, highest: 1 / 4, inbred: 1, meanEquivalents: 2 });
  });

  it('gives the rate that compounds to F', () => {
    const rows = [0, 1, 2, 3].map((t) => ({ generation: t, mean: 1 - 0.9 ** t }));
    expect(inbreedingRate(rows)?.rate).toBeCloseTo(0.1, 12);
    expect(inbreedingRate(rows)?.effectiveSize).toBeCloseTo(5, 12);
    expect(inbreedingRate(rows.slice(0, 1))).toBeNull();
    const falling = [0.2, 0.1].map((mean, t) => ({ generation: t, mean }));
    expect(inbreedingRate(falling)?.effectiveSize).toBeNull();
  });

  it('gives the known share of parents, grandparents and so on', () => {
    expect([...meanCompleteness(line, [8, 7], 3)]).toEqual([1, 1 / 2, 0]);
  });

  it('gives the parents’ ages at the birth of young that bred', () => {
    const bornOn = [0, 10, 0, 20, 100, 110, 120, 130, 230, 250];
    const { sireToSon, sireToDaughter, damToSon, damToDaughter, interval } = generationInterval(
      line,
      bornOn,
    );
    // Sons 4 and 5 of 0 and 1; daughters 6 of 0 and 1, and 7 of 2 and 3.
    expect(sireToSon).toMatchObject({ mean: 105, count: 2 });
    expect(damToSon).toMatchObject({ mean: 95, count: 2 });
    expect(sireToDaughter).toMatchObject({ mean: 125, count: 2 });
    expect(damToDaughter).toMatchObject({ mean: 110, count: 2 });
    expect(interval).toBe((105 + 95 + 125 + 110) / 4);
    expect(
      generationInterval(
        line,
        bornOn.map(() => NaN),
      ).interval,
    ).toBeNull();
  });
});
