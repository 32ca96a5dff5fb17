import { describe, expect, it } from 'vitest';
import { conflictsBetween } from './conflicts-between.js';

const names = { tag: 'Tag', sireId: 'Sire', note: 'Note' };
const recorded = { tag: 'T24-07-12', sireId: 'a1', note: '' };

describe('conflictsBetween', () => {
  it('finds none where the same was typed', () => {
    expect(conflictsBetween(names, { ...recorded }, recorded)).toEqual([]);
  });

  it('tells each field that differs by its name, in the order of the names', () => {
    const mine = { ...recorded, note: 'torn fin', tag: 'T24-07-13' };
    expect(conflictsBetween(names, mine, recorded)).toEqual([
      { field: 'Tag', mine: 'T24-07-13', saved: 'T24-07-12' },
      { field: 'Note', mine: 'torn fin', saved: '' },
    ]);
  });

  it('never shows an id: words for what is recorded, and the form for what was chosen', () => {
    const chosen = { sireId: 'T24-01-02' };
    expect(conflictsBetween(names, { ...recorded, sireId: 'b2' }, recorded, chosen)).toEqual([
      { field: 'Sire', mine: 'your choice in the form', saved: 'T24-01-02' },
    ]);
  });

  it('shows a choice that was taken away as blank', () => {
    const chosen = { sireId: 'T24-01-02' };
    expect(conflictsBetween(names, { ...recorded, sireId: '' }, recorded, chosen)).toEqual([
      { field: 'Sire', mine: '', saved: 'T24-01-02' },
    ]);
  });
});
