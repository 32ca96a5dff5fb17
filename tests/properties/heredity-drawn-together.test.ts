import { carrierModel, HeredityError } from '@linewright/heredity';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bruteForce } from './heredity-brute-force.js';
import { build, drawn, locus } from './looped-records.js';

const DRAWS = 3_000;

/** How often each set of genotypes was drawn, by its genotypes joined. */
function timesOf(draws: Uint8Array, fish: number): Map<string, number> {
  const times = new Map<string, number>();
  for (let at = 0; at < draws.length; at += fish) {
    const key = draws.subarray(at, at + fish).join('');
    times.set(key, (times.get(key) ?? 0) + 1);
  }
  return times;
}

/** Five standard errors, and four draws for what is rare. */
const expectShares = (times: Map<string, number>, whole: ReadonlyMap<string, number>): void => {
  for (const key of times.keys()) expect(whole.has(key)).toBe(true);
  for (const [key, p] of whole) {
    const error = 5 * Math.sqrt((p * (1 - p)) / DRAWS) + 4 / DRAWS;
    expect(Math.abs((times.get(key) ?? 0) / DRAWS - p)).toBeLessThan(error);
  }
};

describe('genotypes drawn together', () => {
  it('come as often as every assignment of all fish is probable (seed 20261127)', () => {
    let possible = 0;
    fc.assert(
      fc.property(drawn(6), fc.nat(), (input, seed) => {
        const { brute, evidence } = build(input);
        const { likelihood, whole } = bruteForce(brute);
        if (likelihood === 0) return;
        possible++;
        const { pedigree } = brute;
        const founders = { general: { alleles: { D: 1 - input.q, d: input.q } } };
        const model = carrierModel({ pedigree, locus, evidence, founders });
        const { genotypes, draws } = model.drawTogether(pedigree.ids, DRAWS, seed);
        expect(genotypes).toEqual([['D', 'D'], ['D', 'd'], ['d', 'd']]); // prettier-ignore
        expectShares(timesOf(draws, pedigree.size), whole);
      }),
      { seed: 20261127, numRuns: 80 },
    );
    expect(possible).toBeGreaterThan(40);
  });

  const records = () => {
    // Two sibs of a pair of which nothing is known, and a young of one of them that shows it.
    const input = {
      parents: [[-1, -1], [-1, -1], [0, 1], [0, 1], [2, -1]], // prettier-ignore
      q: 0.3,
      looks: [1, 1, 0, 0, 2],
      broods: [],
      misScoring: 0,
    } as const;
    const { brute, evidence } = build(input);
    const founders = { general: { alleles: { D: 0.7, d: 0.3 } } };
    return { brute, evidence, founders, ids: brute.pedigree.ids };
  };

  it('some of them, in the order asked for, one twice', () => {
    const { brute, evidence, founders, ids } = records();
    const model = carrierModel({ pedigree: brute.pedigree, locus, evidence, founders });
    const asked = [ids[3]!, ids[2]!, ids[3]!];
    const { draws } = model.drawTogether(asked, DRAWS, 7);
    const table = bruteForce(brute).joint(3, 2);
    const times = timesOf(draws, 3);
    for (const key of times.keys()) expect(key[0]).toBe(key[2]);
    table.forEach((p, at) => {
      const key = `${Math.floor(at / 3)}${at % 3}${Math.floor(at / 3)}`;
      const error = 5 * Math.sqrt((p * (1 - p)) / DRAWS) + 4 / DRAWS;
      expect(Math.abs((times.get(key) ?? 0) / DRAWS - p)).toBeLessThan(error);
    });
    expect(model.drawTogether(asked, 50, 7).draws).toEqual(draws.subarray(0, 150));
  });

  it('out of the sweeps of a sampler that was told of the fish', () => {
    const { brute, evidence, founders, ids } = records();
    const input = { pedigree: brute.pedigree, locus, evidence, founders };
    const model = carrierModel(input, { method: 'sampled', drawn: ids, sweeps: 20_000 });
    const times = timesOf(model.drawTogether(ids, DRAWS, 7).draws, ids.length);
    const { whole } = bruteForce(brute);
    for (const [key, count] of times)
      expect(Math.abs(count / DRAWS - (whole.get(key) ?? 0))).toBeLessThan(0.06);
    expect([...times.keys()].every((key) => whole.has(key))).toBe(true);
    const untold = carrierModel(input, { method: 'sampled' });
    expect(() => untold.drawTogether(ids, 1, 7)).toThrowError(/`drawn`/);
  });

  it('of a fish that is not there are refused', () => {
    const { brute, evidence, founders } = records();
    const model = carrierModel({ pedigree: brute.pedigree, locus, evidence, founders });
    expect(() => model.drawTogether(['nobody'], 1, 1)).toThrowError(HeredityError);
  });
});
