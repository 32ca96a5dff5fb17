import { describe, expect, it } from 'vitest';
import {
  emptyDraft,
  goneOn,
  kindFor,
  markingOf,
  movedTo,
  nudged,
  oneLess,
} from './marking-draft.js';

const size = { width: 400, height: 300 };
const put = (draft: ReturnType<typeof emptyDraft>, ...places: [number, number][]) =>
  places.reduce((so, [x, y]) => goneOn(movedTo(so, { x, y }, size)), draft);

describe('a marking under way', () => {
  it('asks for its points one after another, and is whole once all are there', () => {
    const two = put(emptyDraft('spread'), [200, 150], [200, 50]);
    expect([two.active, markingOf(two)]).toEqual([2, null]);
    const whole = put(two, [200, 250]);
    expect(markingOf({ ...whole, heads: 'right' })).toEqual({
      kind: 'spread',
      points: [
        { x: 200, y: 150 },
        { x: 200, y: 50 },
        { x: 200, y: 250 },
      ],
      heads: 'right',
      flat: false,
    });
  });

  it('begins in the middle by keys, steps from there, and stays within the picture', () => {
    const begun = nudged(emptyDraft('spread'), 1, 0, size);
    expect(begun.places[0]?.at).toEqual({ x: 200, y: 150 });
    expect(nudged(begun, 1, -2, size).places[0]?.at).toEqual({ x: 201, y: 148 });
    expect(nudged(begun, 1000, 0, size).places[0]?.at).toEqual({ x: 400, y: 150 });
  });

  it('has one more ray always, and takes the last one away', () => {
    const three = put(emptyDraft('count'), [10, 10], [20, 10], [30, 10]);
    expect(three.places.map(({ name }) => name)).toEqual(['Ray 1', 'Ray 2', 'Ray 3', 'Ray 4']);
    expect(markingOf(three)?.points).toHaveLength(3);
    expect(markingOf(oneLess(three))?.points).toHaveLength(2);
    expect(markingOf(oneLess(emptyDraft('count')))).toBeNull();
  });

  it('of a length needs the scale and how long it is', () => {
    const whole = put(emptyDraft('length'), [0, 0], [100, 0], [0, 50], [200, 50]);
    expect(markingOf(whole)).toBeNull();
    expect(markingOf({ ...whole, millimetres: '50,5' })?.scale?.millimetres).toBe(50.5);
  });

  it('is of the kind that the unit of the trait asks for', () => {
    expect(kindFor({ kind: 'MEASURED', unit: '°' })).toBe('spread');
    expect(kindFor({ kind: 'MEASURED', unit: ' MM ' })).toBe('length');
    expect(kindFor({ kind: 'MEASURED', unit: '%' })).toBe('colour');
    expect(kindFor({ kind: 'MEASURED', unit: 'g' })).toBeNull();
    expect(kindFor({ kind: 'COUNT', unit: null })).toBe('count');
    expect(kindFor({ kind: 'ORDINAL', unit: '°' })).toBeNull();
  });
});
