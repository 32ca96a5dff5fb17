import { describe, expect, it } from 'vitest';
import { broodFryWords, fryWords, passingWords, roundFryWords } from './passing-words.js';

const passing = {
  ...{ share: 0.21, wanted: 4, fry: 60, survival: 0.5, chance: 0.872 },
  fryFor: [
    { certainty: 0.8, fry: 48 },
    { certainty: 0.9, fry: 1_200 },
    { certainty: 0.95, fry: null },
  ],
};

describe('the chance to pass in words', () => {
  it('names the share, the brood and the chance', () => {
    expect(passingWords(passing)).toBe(
      '21 % of the young are expected to pass your standard. Chance that at least 4 of this brood pass, out of 60 swimming fry of which 50 % live to be sorted: about 87 in 100.',
    );
    expect(passingWords({ ...passing, chance: 0.001 })).toMatch(/next to none\.$/);
    expect(passingWords({ ...passing, chance: 0.999 })).toMatch(/nearly sure\.$/);
    expect(passingWords({ ...passing, share: null, chance: null })).toMatch(/not known/);
  });

  it('names the fry, and what is out of reach', () => {
    expect(fryWords(passing)).toBe(
      'Fry to raise for 4 that pass: 48 for 80 in 100, 1,200 for 90 in 100. A higher chance is out of reach.',
    );
    expect(fryWords({ ...passing, fryFor: [{ certainty: 0.8, fry: null }] })).toMatch(/No number/);
    expect(fryWords({ ...passing, fryFor: [] })).toBe('');
  });

  it('plans a brood for 90 in 100, and adds the broods of a round up', () => {
    expect(broodFryWords(passing)).toBe('raise 1,200 fry for 4 that pass');
    const none = { ...passing, fryFor: [{ certainty: 0.9, fry: null }] };
    expect(broodFryWords(none)).toBe('no number of fry gives 4 that pass');
    expect(broodFryWords({ ...passing, share: null })).toMatch(/not known/);
    const all = 'Fry to raise in all: 2,400, for a chance of 90 in 100 a brood.';
    expect(roundFryWords([passing, passing], null)).toBe(all);
    expect(roundFryWords([passing, none, passing], 3_000)).toBe(
      `${all} 1 brood without a number not counted. The line says that 3,000 can be raised.`,
    );
    expect(roundFryWords([passing, passing], 2_399)).toBe(
      `${all} That is more than the 2,399 that can be raised: keep fewer of each, or make fewer broods.`,
    );
    expect(roundFryWords([passing, passing], 3_599, [passing, none])).toBe(
      `${all} The pairs planned already take 1,200 more. That is more than the 3,599 that can be raised: keep fewer of each, or make fewer broods.`,
    );
    expect(roundFryWords([none], 10)).toBe('');
  });
});
