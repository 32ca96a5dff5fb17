/**
 * Minimum-coancestry mating.
 *
 * Principle: e.g. Toro & Perez-Enciso 1990, Genet Sel Evol 22:93-107 (from memory). No number of that paper is used: the
 * three by three example is a toy made for this check, its coancestries worked out by hand below and its best and worst
 * allocations found by listing all six; basis: computed reference, no printed number.
 */
import { coancestryBlock } from '@linewright/kinship';
import { allocatePairs, assignCheapest, assignExhaustively } from '@linewright/mating';
import { buildPedigree } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';

const males = ['S1', 'S2', 'S3'];
const females = ['D1', 'D2', 'D3'];
const pedigree = buildPedigree([
  ...['s0', 's1', 'd0', 'd1', 'd2', 'd3'].map((id) => ({ id })),
  { id: 'S1', sire: 's0', dam: 'd0' },
  { id: 'S2', sire: 's0', dam: 'd1' },
  { id: 'S3', sire: 's1', dam: 'd2' },
  { id: 'D1', sire: 's0', dam: 'd0' },
  { id: 'D2', sire: 's1', dam: 'd2' },
  { id: 'D3', sire: 's1', dam: 'd3' },
]);
const block = coancestryBlock(
  pedigree,
  males.map((id) => pedigree.indexOf(id)),
  females.map((id) => pedigree.indexOf(id)),
);

// Full siblings 1/4, half siblings 1/8, others 0.
const byHand = [1 / 4, 0, 0, 1 / 8, 0, 0, 0, 1 / 4, 1 / 8];

const everyOrder = [[0, 1, 2], [0, 2, 1], [1, 0, 2], [1, 2, 0], [2, 0, 1], [2, 1, 0]]; // prettier-ignore
const totals = everyOrder.map((order) =>
  order.reduce((sum, f, m) => sum + (byHand[m * 3 + f] ?? 0), 0),
);

describe('the toy example', () => {
  it('has the coancestries worked out by hand', () => {
    expect(Array.from(block)).toEqual(byHand);
  });

  it('is solved to the least of the six totals, 0', () => {
    expect(Math.min(...totals)).toBe(0);
    const { totalInbreeding, pairs } = allocatePairs({ pedigree, males, females });
    expect(totalInbreeding).toBe(0);
    expect(pairs.map(({ damId }) => damId).toSorted()).toEqual(females);
  });

  it('gives the greatest of the six totals, 1/2, when the costs are turned round', () => {
    expect(Math.max(...totals)).toBe(0.5);
    const turned = block.map((value) => -value);
    expect(assignCheapest(turned, 3, 3).total).toBe(-0.5);
    expect(assignExhaustively(turned, 3, 3).total).toBe(-0.5);
  });
});
