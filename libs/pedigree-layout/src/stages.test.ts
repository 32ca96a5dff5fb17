import { describe, expect, it } from 'vitest';
import { poolAdjacent } from './coordinates.js';
import { countCrossings, placesOf, swapCost } from './crossings.js';
import type { Rows } from './rows.js';
import { assignTracks } from './tracks.js';

const twoRows = (
  edges: readonly (readonly [number, number])[],
  above: number,
  below: number,
): Rows => {
  const count = above + below;
  const up: number[][] = Array.from({ length: count }, () => []);
  const down: number[][] = Array.from({ length: count }, () => []);
  for (const [a, b] of edges) {
    down[a]!.push(above + b);
    up[above + b]!.push(a);
  }
  return {
    vertices: Array.from({ length: count }, (_, v) => ({
      kind: 'node',
      ref: v,
      row: v < above ? 0 : 1,
    })),
    order: [
      Array.from({ length: above }, (_, v) => v),
      Array.from({ length: below }, (_, v) => above + v),
    ],
    up,
    down,
    nodeVertex: new Int32Array(),
    matingVertex: new Int32Array(),
    sirePort: new Int32Array(),
    damPort: new Int32Array(),
  };
};

const crossings = (rows: Rows): number => countCrossings(rows, placesOf(rows));

describe('countCrossings', () => {
  it('counts the complete two-row graph of m and n vertices as C(m,2) C(n,2)', () => {
    const edges = [0, 1, 2, 3].flatMap((a) => [0, 1, 2].map((b) => [a, b] as const));
    expect(crossings(twoRows(edges, 4, 3))).toBe(6 * 3);
  });

  it('counts none for lines that meet at an end', () => {
    expect(
      crossings(
        twoRows(
          [
            [0, 0],
            [0, 1],
            [1, 1],
          ],
          2,
          2,
        ),
      ),
    ).toBe(0);
  });
});

describe('swapCost', () => {
  it('is the change in crossings', () => {
    expect(swapCost([3], [0])).toBe(-1);
    expect(swapCost([0, 1], [2, 3])).toBe(4);
    expect(swapCost([1], [1])).toBe(0);
  });
});

describe('poolAdjacent', () => {
  it('leaves an ordered sequence alone and averages one that is not, by weight', () => {
    const pool = (wanted: number[], weights: number[]) => [
      ...poolAdjacent(Float64Array.from(wanted), Float64Array.from(weights)),
    ];
    expect(pool([1, 2, 3], [1, 1, 1])).toEqual([1, 2, 3]);
    expect(pool([3, 1], [1, 3])).toEqual([1.5, 1.5]);
    expect(pool([1, 5, 2, 3], [1, 1, 1, 1])).toEqual([1, 10 / 3, 10 / 3, 10 / 3]);
  });
});

describe('assignTracks', () => {
  const runs = [
    { from: 0, to: 100 },
    { from: 10, to: 20 },
    { from: 40, to: 50 },
  ];

  it('shares a track where runs are apart and puts the chosen kind first', () => {
    expect(assignTracks(runs, 'shortest', 5)).toEqual({ track: [1, 0, 0], count: 2 });
    expect(assignTracks(runs, 'longest', 5)).toEqual({ track: [0, 1, 1], count: 2 });
    expect(assignTracks(runs, 'longest', 25).count).toBe(3);
  });
});
