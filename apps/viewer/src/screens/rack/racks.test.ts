import { describe, expect, it } from 'vitest';
import { codesOfRack, racksOf } from './racks.js';

const at = (id: string, rack: string | null, shelf: number | null, position: number | null) => ({
  ...{ id, rack, shelf, position },
});

describe('racks as they stand', () => {
  it('have their shelves from above and their positions from the left, bare ones among them', () => {
    const { racks, loose } = racksOf([
      at('a', 'Rack 1', 2, 1),
      at('b', 'Rack 1', 1, 3),
      at('c', 'Rack 1', 1, 1),
      at('tub', null, null, null),
    ]);
    expect(loose.map(({ id }) => id)).toEqual(['tub']);
    expect(racks.map(({ name }) => name)).toEqual(['Rack 1']);
    expect(
      racks[0]?.shelves.map(({ number, positions }) => [
        number,
        positions.map((here) => here.map(({ id }) => id).join()),
      ]),
    ).toEqual([
      [1, ['c', '', 'b']],
      [2, ['a']],
    ]);
  });

  it('are one however they are spelt, and keep what stands somewhere on them or twice in a position', () => {
    const { racks } = racksOf([
      at('a', 'Rack 1', 1, 1),
      at('b', 'rack1', 1, 1),
      at('c', 'RACK 1', 1, null),
    ]);
    expect(racks).toHaveLength(1);
    expect(racks[0]?.shelves[0]?.positions[0]?.map(({ id }) => id)).toEqual(['a', 'b']);
    expect(racks[0]?.somewhere.map(({ id }) => id)).toEqual(['c']);
  });

  it('draw no thousand bare positions for a slip', () => {
    const { racks } = racksOf([at('a', 'R', 1, 1), at('b', 'R', 1, 1000)]);
    expect(racks[0]?.shelves[0]?.positions).toHaveLength(14);
  });
});

describe('codes of a new rack', () => {
  it('have a letter for the shelf and a number for the position', () => {
    expect(codesOfRack('', 2, 2).map(({ code }) => code)).toEqual(['A1', 'A2', 'B1', 'B2']);
    expect(codesOfRack('2-', 1, 1)).toEqual([{ code: '2-A1', shelf: 1, position: 1 }]);
    expect(new Set(codesOfRack('', 40, 30).map(({ code }) => code)).size).toBe(1200);
  });
});
