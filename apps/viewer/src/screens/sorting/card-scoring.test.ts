import { describe, expect, it } from 'vitest';
import type { BenchSheet, BenchTrait } from './bench-facts.js';
import { blank } from './bench-place.js';
import { cardScoring, isNoteAlone } from './card-scoring.js';

const trait = (id: string, fromAgeDays: number | null = null): BenchTrait => ({
  ...{ id, name: id, kind: 'MEASURED', unit: null, minimum: 0, maximum: 240 },
  ...{ fromAgeDays, toAgeDays: null, description: null, version: 1 },
});
const sheet = {
  id: 'eight',
  name: 'Eight weeks',
  version: 1,
  current: { lines: [{ trait: trait('spread') }], faults: [] },
} as unknown as BenchSheet;
const bench = { traits: [trait('spread'), trait('weight'), trait('late', 90)], sheets: [sheet] };
const at = { age: 60, allTraits: false };
const filled = { ...blank, typed: new Map([['weight', '3.5']]) };
const ids = (traits: readonly { id: string }[]) => traits.map(({ id }) => id);

describe('what a fish is scored on', () => {
  it('without a sheet: the traits of its age, or all', () => {
    expect(ids(cardScoring(bench, null, filled, at).traits)).toEqual(['spread', 'weight']);
    expect(ids(cardScoring(bench, null, filled, { ...at, allTraits: true }).traits)).toEqual([
      ...['spread', 'weight', 'late'],
    ]);
  });

  it('with a sheet: its lines, and beside it what was typed that it does not ask for', () => {
    const scoring = cardScoring(bench, sheet, filled, at);
    expect([ids(scoring.sheetTraits), ids(scoring.traits)]).toEqual([['spread'], ['weight']]);
    expect(scoring.scored).toEqual({ look: null, plain: new Map([['weight', 3.5]]) });
    expect(cardScoring(bench, sheet, blank, at).traits).toEqual([]);
  });

  it('a value of another age is entered although it is not shown', () => {
    const late = { ...blank, typed: new Map([['late', '7']]) };
    const { traits, scored } = cardScoring(bench, null, late, at);
    expect([ids(traits), scored.plain]).toEqual([['spread', 'weight'], new Map([['late', 7]])]);
  });

  it('a note needs a score or a fault of its sheet beside it', () => {
    const noted = { ...filled, note: 'pale' };
    expect(isNoteAlone(cardScoring(bench, sheet, noted, at), noted.note)).toBe(true);
    const scored = { ...noted, typed: new Map([['spread', '170']]) };
    expect(isNoteAlone(cardScoring(bench, sheet, scored, at), noted.note)).toBe(false);
    expect(isNoteAlone(cardScoring(bench, null, noted, at), noted.note)).toBe(false);
  });
});
