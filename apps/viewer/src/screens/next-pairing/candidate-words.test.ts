import { describe, expect, it } from 'vitest';
import { leftOutWords, OFFER_AWAY, OFFER_UNPLACED } from './candidate-words.js';

const left = { totalCount: 0, listedCount: 0, unsexedCount: 0, awayCount: 26 };

describe('what stands in no pair', () => {
  it('is said not to be here only to whoever is told where fish swim', () => {
    expect(leftOutWords(left, false)).toBe(
      `26 fish in use not here: not listed unless you tick “${OFFER_AWAY}”.`,
    );
    expect(leftOutWords(left, true)).toBe(
      `26 fish in use swim elsewhere, or where is not shared with you: not listed unless you tick “${OFFER_UNPLACED}”.`,
    );
  });
});
