import { describe, expect, it } from 'vitest';
import { dayOf, mended, onRevision, revisionOf, type Entry, type NewEntry } from './entry.js';

const kept = (entry: NewEntry): Entry => ({
  ...entry,
  ...{ id: 'e', keeperId: 'k', group: 'g', sequence: 1, madeAt: '2026-11-25T12:00:00Z' },
  attempts: 1,
  state: 'refused',
});
const facts = { spawnId: 's', subject: 's', label: 'label' };
const decision = kept({
  ...facts,
  kind: 'decision',
  input: { id: 'f', disposition: 'KEEPER', on: '2026-11-25', revision: 3 },
});
const loss = kept({
  ...facts,
  kind: 'loss',
  input: {
    ...{ spawnId: 's', kind: 'CULLED', on: '2026-11-25', number: 2, reason: 'thin' },
    ...{ locusId: 'dt', phenotype: 'double tail' },
  },
});
const jarred = kept({ ...facts, kind: 'new_fish', input: { tag: 'T-1', sex: 'MALE' } });
const counted = kept({
  ...facts,
  kind: 'class_count',
  input: {
    ...{ spawnId: 's', locusIds: ['dt'], phenotype: 'single', number: 4 },
    countedOn: '2026-11-25',
  },
});

describe('an entry', () => {
  it('is mended in the field that its kind has, and in no other', () => {
    expect(mended(loss, { field: 'on', value: '2026-11-24' }).input).toMatchObject({
      on: '2026-11-24',
      number: 2,
    });
    expect(mended(counted, { field: 'countedOn', value: '2026-11-24' }).input).toMatchObject({
      countedOn: '2026-11-24',
    });
    expect(mended(jarred, { field: 'tag', value: 'T-2' }).input).toEqual({
      tag: 'T-2',
      sex: 'MALE',
    });
    expect(mended(loss, { field: 'locus', value: null }).input).toMatchObject({
      locusId: null,
      phenotype: null,
      reason: 'thin',
    });
    expect(mended(counted, { field: 'on', value: '2026-11-24' })).toBe(counted);
    expect(mended(decision, { field: 'tag', value: 'T-2' })).toBe(decision);
  });

  it('tells its day by the name that the API gives the field', () => {
    expect(dayOf(decision)).toEqual({ field: 'on', day: '2026-11-25' });
    expect(dayOf(counted)).toEqual({ field: 'countedOn', day: '2026-11-25' });
    expect(dayOf(jarred)).toBeNull();
  });

  it('moves to another state of the fish only where it was made on one', () => {
    expect(revisionOf(onRevision(decision, 5))).toBe(5);
    expect(onRevision(loss, 5)).toBe(loss);
    expect(revisionOf(loss)).toBeNull();
  });
});
