import { describe, expect, it } from 'vitest';
import type { BenchFish } from './bench-facts.js';
import { drawnFish, leftToDraw } from './drawn-fish.js';

const fish = (id: string, disposition: BenchFish['disposition'], scores = 0) =>
  ({
    id,
    disposition,
    scores: new Map(Array.from({ length: scores }, (_, k) => [`t${k}`, { id: `s${k}`, value: 1 }])),
  }) as unknown as BenchFish;
const draws = [{ fish: [{ id: 'b' }, { id: 'a' }] }, { fish: [{ id: 'gone' }, { id: 'c' }] }];
const all = [
  fish('a', 'UNSORTED', 2),
  fish('b', 'KEEPER', 1),
  fish('c', 'UNSORTED'),
  fish('d', 'UNSORTED'),
];

const traits = () => [{ id: 't0' }, { id: 't1' }];

describe('fish that chance chose', () => {
  it('stand in the order of the draws, those that are not here left out', () => {
    expect(drawnFish(draws, all, traits).map(({ fish: { id }, scored }) => [id, scored])).toEqual([
      ['b', false],
      ['a', true],
      ['c', false],
    ]);
    expect(drawnFish([], all, traits)).toEqual([]);
  });

  it('leave those to draw that are not sorted and were not drawn', () => {
    expect(leftToDraw(draws, all)).toBe(1);
    expect(leftToDraw(draws, [...all, fish('e', 'DIED')])).toBe(1);
  });

  it('leave none to draw once another was decided about', () => {
    expect(leftToDraw([], all)).toBe(0);
    expect(leftToDraw(draws, [...all, fish('e', 'CULLED')])).toBe(0);
  });
});
