import { describe, expect, it } from 'vitest';
import { MatingError } from '../mating-error.js';
import { completePurpose, STARTING_PURPOSE, type LinePurposeInput } from './line-purpose.js';

const spread = { traitId: 'spread', better: 'higher', low: 175, high: null, worth: 1 } as const;

const refused = (input: LinePurposeInput): MatingError => {
  try {
    completePurpose(input);
  } catch (error) {
    if (error instanceof MatingError) return error;
    throw error;
  }
  throw new Error('It was taken.');
};

describe('what a line is for', () => {
  it('starts with nothing in particular', () => {
    expect(completePurpose()).toEqual(STARTING_PURPOSE);
  });

  it('keeps what is said and fills the rest', () => {
    const purpose = completePurpose({ traits: [spread], broods: 5 });
    expect(purpose).toEqual({ ...STARTING_PURPOSE, traits: [spread], broods: 5 });
  });

  it.each([
    ['traits.spread.worth', { traits: [{ ...spread, worth: -1 }] }],
    ['traits.spread', { traits: [spread, spread] }],
    ['traits.spread', { traits: [{ ...spread, high: 170 }] }],
    ['traits.spread', { traits: [{ ...spread, better: 'within', low: null, high: null }] }],
    ['traits.spread', { traits: [{ ...spread, low: Number.NaN }] }],
    ['ceiling', { ceiling: 1.2 }],
    ['kinshipRise', { kinshipRise: -0.01 }],
    ['broods', { broods: 0 }],
    ['broods', { broods: 2.5 }],
    ['keep', { keep: 1 }],
    ['fry', { fry: 0 }],
    ['vessels', { vessels: 0 }],
    ['broodsPerFish', { broodsPerFish: 0 }],
    ['earliest', { earliest: '2026-02-30' }],
    ['latest', { earliest: '2026-03-02', latest: '2026-03-01' }],
    ['inbreedingCost', { inbreedingCost: -3 }],
  ] as const)('refuses %s and names it', (subject, input) => {
    const error = refused(input);
    expect(error.code).toBe('MATING_BAD_PURPOSE');
    expect(error.subject).toBe(subject);
    expect(error.message).toContain('must be');
  });

  it('refuses a look that no fish can have', () => {
    const looks = [{ look: { show: { bl: 'pink' } }, wanted: true, worth: 1, required: false }];
    expect(refused({ looks }).code).toBe('MATING_BAD_SETTING');
  });

  it('refuses rules that contradict each other', () => {
    const ages = { ...STARTING_PURPOSE.rules.ages, capableFrom: 400 };
    const rules = { ...STARTING_PURPOSE.rules, ages };
    expect(refused({ rules }).message).toContain('ages');
  });
});
