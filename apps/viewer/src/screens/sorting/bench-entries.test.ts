import { describe, expect, it } from 'vitest';
import { culledFryEntries, decidedEntries, jarredEntries, sexEntry } from './bench-entries.js';
import type { Bench, BenchFish, ClassSeen } from './bench-facts.js';
import { nothingScored } from './sheet-look.js';

const fish = {
  ...{ id: 'f1', tag: 'T26-01-01', revision: 4, sex: 'UNSEXED', disposition: 'UNSORTED' },
  ...{ dispositionDate: null, dispositionReason: null },
} as BenchFish;
const bench = (classes: ClassSeen[] = []) =>
  ({
    ...{ id: 'spawn', tag: 'T26-01', hatchDate: '2026-09-01', fish: [fish], classes },
    traits: [{ id: 'spread', name: 'Spread', version: 2 }],
  }) as unknown as Bench;
const on = '2026-11-25';
const decided = { disposition: 'CULLED', reason: 'split', scored: nothingScored } as const;
const split = { locusId: 'dt', phenotype: 'split' };

describe('what is entered at the bench', () => {
  it('scores, a class and a decision go together, the decision last', () => {
    const scored = { look: null, plain: new Map([['spread', 170]]) };
    const entries = decidedEntries(bench(), fish, on, { ...decided, scored, seen: split });
    expect(entries.map(({ kind, label }) => [kind, label])).toEqual([
      ['scores', 'T26-01-01: Spread 170'],
      ['class_count', 'T26-01-01: counted as split'],
      ['decision', 'T26-01-01: culled, split'],
    ]);
    expect(entries[0]?.input).toMatchObject({ scores: [{ value: 170, traitVersion: 2 }] });
    expect(entries[2]?.before?.disposition).toBe('UNSORTED');
  });

  it('a fish is counted once in a class of a locus', () => {
    const counted = { id: 'c', locusIds: ['dt'], phenotype: 'split', number: 1, note: fish.tag };
    const entries = decidedEntries(bench([counted]), fish, on, { ...decided, seen: split });
    expect(entries.map(({ kind }) => kind)).toEqual(['decision']);
  });

  it('fry culled for a class are counted in it too, as many', () => {
    const cull = { number: 12, reason: 'split', heritable: true, locusId: 'dt', seen: split };
    expect(culledFryEntries(bench(), on, cull).map(({ input }) => input)).toMatchObject([
      { phenotype: 'split', number: 12, countedOn: on, note: null },
      { kind: 'CULLED', number: 12, reason: 'split', heritable: true, locusId: 'dt', on },
    ]);
    expect(culledFryEntries(bench(), on, { ...cull, seen: null })).toHaveLength(1);
  });

  it('a jarred fish has a record of its own, with the tag that comes next', () => {
    const [two, three] = jarredEntries(bench(), 2, 'MALE');
    expect([two?.label, three?.label]).toEqual(['T26-01-02: jarred', 'T26-01-03: jarred']);
    expect(two?.input).toMatchObject({ id: two?.subject, sex: 'MALE', hatchDate: '2026-09-01' });
    expect(two?.subject).not.toBe(three?.subject);
  });

  it('a sex goes with the revision that was seen', () => {
    expect(sexEntry(bench(), fish, 'FEMALE')).toMatchObject({
      label: 'T26-01-01: female',
      input: { revision: 4, sex: 'FEMALE' },
      before: { sex: 'UNSEXED' },
    });
  });
});
