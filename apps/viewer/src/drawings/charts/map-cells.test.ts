import { describe, expect, it } from 'vitest';
import { cellAfterKey, pairOf } from './map-cells.js';
import { extremePairs, tableSummary } from './map-words.js';

const fish = Array.from({ length: 12 }, (_, k) => ({
  id: `f${k}`,
  tag: `F${k}`,
  sex: 'male' as const,
}));

describe('the cells of a relationship map', () => {
  it('are gone through by keys, never past an edge', () => {
    const from = { row: 1, column: 0 };
    expect(cellAfterKey('ArrowDown', from, 12)).toEqual({ row: 2, column: 0 });
    expect(cellAfterKey('ArrowLeft', from, 12)).toEqual(from);
    expect(cellAfterKey('PageDown', from, 12)).toEqual({ row: 11, column: 0 });
    expect(cellAfterKey('PageUp', from, 12)).toEqual({ row: 0, column: 0 });
    expect(cellAfterKey('End', from, 12)).toEqual({ row: 1, column: 11 });
    expect(cellAfterKey('x', from, 12)).toBeNull();
  });

  it('have two fish, or none on an empty map', () => {
    expect(pairOf(fish, { row: 2, column: 5 })).toEqual({ a: fish[2], b: fish[5] });
    expect(pairOf([], { row: 0, column: 0 })).toBeNull();
  });

  it('are listed all where they are few, else those of either end', () => {
    const kin = Float64Array.from({ length: 144 }, (_, k) => k / 144);
    expect(tableSummary(5)).toBe('All 10 pairs, as a table');
    expect(tableSummary(12)).toBe('The 30 closest and the 30 most distant of 66 pairs, as a table');
    const listed = extremePairs(fish, kin);
    expect(listed).toHaveLength(60);
    expect(listed[0]![0]).toBe('F11 and F10');
  });
});
