import { describe, expect, it } from 'vitest';
import type { Proposal } from '../../api/rounds.js';
import { adoptionOf } from './adoption.js';

const pairs = [{ sire: { id: 's', tag: 'S' }, dam: { id: 'd', tag: 'D' } }] as Proposal['pairs'];
const typed = { plannedOn: '2026-03-14', note: null, confirmed: false };

describe('adopting the pairs of a proposal', () => {
  it('sends its pairs with the version they were chosen by', () => {
    const sent = adoptionOf('l', { pairs, purposeVersion: 3, kinshipLimit: null }, typed);
    expect(sent).toEqual({
      ...{ lineId: 'l', plannedOn: '2026-03-14', confirmed: false, expectedPurposeVersion: 3 },
      pairs: [{ sireId: 's', damId: 'd' }],
    });
  });

  it('sends the limit and the note where there is one', () => {
    const sent = adoptionOf(
      'l',
      { pairs, purposeVersion: 0, kinshipLimit: 0.1 },
      { ...typed, note: 'as a trial', confirmed: true },
    );
    expect(sent).toMatchObject({ kinshipLimit: 0.1, note: 'as a trial', confirmed: true });
  });
});
