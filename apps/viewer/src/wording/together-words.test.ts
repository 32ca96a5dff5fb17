import { describe, expect, it } from 'vitest';
import {
  bandOfCorrelation,
  fromBothText,
  partOfTogether,
  selectingText,
  togetherText,
} from './together-words.js';

const inherited = (correlation: number | null, standardError: number | null) => [
  { part: 'additive', correlation, standardError },
];

describe('two traits together, in words', () => {
  it('go one way, or against each other, with the figure and its band', () => {
    expect(
      togetherText({ verdict: 'TOGETHER', correlations: inherited(0.6, 0.1) }, 'spread', 'length'),
    ).toBe(
      'Fish that pass on more of spread pass on more of length as well. Correlation of what is inherited: 0.6, in 95 of 100 cases like this from 0.4 to 0.8.',
    );
    expect(
      togetherText(
        { verdict: 'AGAINST_EACH_OTHER', correlations: inherited(-0.5, 0.2) },
        'spread',
        'length',
      ),
    ).toContain('pass on less of length');
    expect(selectingText('AGAINST_EACH_OTHER', 'spread', 'length')).toContain('the other way');
    expect(selectingText('TOGETHER', 'spread', 'length')).toContain('the same way');
  });

  it('cannot be known yet, with or without a figure, and then nothing is advised', () => {
    const none = { verdict: 'CANNOT_TELL_YET', correlations: inherited(null, null) } as const;
    expect(togetherText(none, 'spread', 'length')).toBe(
      'Cannot tell yet whether spread and length are inherited together.',
    );
    const edge = { verdict: 'CANNOT_TELL_YET', correlations: inherited(1, null) } as const;
    expect(togetherText(edge, 'spread', 'length')).toContain('how sure this is, is not known');
    expect(selectingText('CANNOT_TELL_YET', 'spread', 'length')).toBeNull();
  });

  it('have bands that end at -1 and 1', () => {
    expect(bandOfCorrelation({ correlation: 0.9, standardError: 0.3 })).toMatchObject({
      high: 1,
      low: expect.closeTo(0.312, 6) as number,
    });
    expect(bandOfCorrelation({ correlation: -0.9, standardError: 0.3 })?.low).toBe(-1);
    expect(bandOfCorrelation({ correlation: null, standardError: null })).toBeNull();
  });

  it('name the parts, and a fish’s young by both', () => {
    expect(['additive', 'residual', 'brood', 'other'].map(partOfTogether)).toEqual([
      'What is inherited',
      'All else',
      'What a brood shares',
      'other',
    ]);
    expect(fromBothText('Spread', 6.2, 9.1, 'degrees')).toBe(
      'Spread: its young are expected 6 degrees above the line’s mean, give or take 9.',
    );
  });
});
