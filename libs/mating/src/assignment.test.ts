import { describe, expect, it } from 'vitest';
import { assignCheapest, assignExhaustively } from './assignment.js';
import { MatingError } from './mating-error.js';

const costs = (...rows: number[][]): Float64Array => Float64Array.from(rows.flat());

describe.each([
  ['assignCheapest', assignCheapest],
  ['assignExhaustively', assignExhaustively],
])('%s', (_name, assign) => {
  it('does not fall for the cheapest single cell', () => {
    const { cells, total } = assign(costs([1, 2], [2, 9]), 2, 2);
    expect([cells, total]).toEqual([[[0, 1], [1, 0]], 4]); // prettier-ignore
  });

  it('takes the cheapest k cells, which need not be part of the full choice', () => {
    const table = costs([1, 2], [2, 9]);
    expect(assign(table, 2, 2, 1)).toEqual({ cells: [[0, 0]], total: 1 });
  });

  it('works with more rows than columns, fewer, and none', () => {
    expect(assign(costs([5], [3], [4]), 3, 1)).toEqual({ cells: [[1, 0]], total: 3 });
    expect(assign(costs([5, 3, 4]), 1, 3)).toEqual({ cells: [[0, 1]], total: 3 });
    expect(assign(costs(), 0, 4)).toEqual({ cells: [], total: 0 });
  });

  it('never takes a forbidden cell, and places what can be placed', () => {
    const { cells, total } = assign(costs([Infinity, 1], [Infinity, 2]), 2, 2);
    expect([cells, total]).toEqual([[[0, 1]], 1]);
    expect(assign(costs([Infinity, 1], [7, Infinity]), 2, 2).total).toBe(8);
  });

  it('takes negative costs', () => {
    expect(assign(costs([-1, -5], [-4, -6]), 2, 2).total).toBe(-9);
  });

  it('refuses a table of the wrong size or with NaN', () => {
    expect(() => assign(costs([1, 2]), 2, 2)).toThrow(MatingError);
    expect(() => assign(costs([1, NaN]), 1, 2)).toThrow(/number/);
  });
});

describe('assignExhaustively', () => {
  it('refuses tables that would take too long', () => {
    expect(() => assignExhaustively(new Float64Array(81), 9, 9)).toThrow(/8 x 8/);
  });
});
