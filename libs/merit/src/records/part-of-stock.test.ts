import { describe, expect, it } from 'vitest';
import { pedigreeFromArrays } from '@linewright/pedigree';
import { partOfStock } from './part-of-stock.js';

/** Six generations of one pair each, then forty broods of five of the last fish with founders of their own. */
const stock = () => {
  const sire = [-1, -1];
  const dam = [-1, -1];
  for (let k = 0; k < 6; k++) {
    sire.push(sire.length - 2);
    dam.push(sire.length - 2);
  }
  const last = sire.length - 1;
  const scored: number[] = [];
  for (let brood = 0; brood < 40; brood++) {
    const founder = sire.length;
    sire.push(-1);
    dam.push(-1);
    for (let k = 0; k < 5; k++) {
      scored.push(sire.length);
      sire.push(last);
      dam.push(founder);
    }
  }
  const pedigree = pedigreeFromArrays(Int32Array.from(sire), Int32Array.from(dam));
  return { pedigree, fish: Int32Array.from([...scored, ...scored.slice(0, 7)]), last };
};

describe('a part of a stock', () => {
  const { pedigree, fish, last } = stock();
  const part = partOfStock(pedigree, fish, { most: 50, generations: 2 });

  it('has whole broods, all their looks, and no more than asked for', () => {
    expect([part.scoredFish, part.broods]).toEqual([50, 10]);
    const inIt = new Set([...part.rows].map((row) => fish[row]!));
    expect(inIt.size).toBe(50);
    for (const [row, i] of fish.entries()) expect(part.rows.includes(row)).toBe(inIt.has(i));
    for (const i of inIt)
      for (const sib of fish)
        if (pedigree.dam[sib] === pedigree.dam[i]) expect(inIt.has(sib)).toBe(true);
  });

  it('takes so many generations of ancestors along, and none before', () => {
    const members = new Set(part.members);
    for (const row of part.rows) expect(members.has(pedigree.dam[fish[row]!]!)).toBe(true);
    expect(members.has(last)).toBe(true);
    expect(members.has(pedigree.sire[last]!)).toBe(true);
    expect(members.has(pedigree.sire[pedigree.sire[last]!]!)).toBe(false);
  });

  it('is another with another seed, the same with the same, and all when there are few', () => {
    const again = partOfStock(pedigree, fish, { most: 50, generations: 2 });
    expect(again.rows).toEqual(part.rows);
    const other = partOfStock(pedigree, fish, { most: 50, generations: 2, seed: 2 });
    expect(other.rows).not.toEqual(part.rows);
    const all = partOfStock(pedigree, fish, { most: 1000, generations: 9 });
    expect([all.rows.length, all.members.length]).toEqual([fish.length, pedigree.size]);
    expect(() => partOfStock(pedigree, fish, { most: 0, generations: 2 })).toThrow(/needs a fish/);
  });
});
