import { describe, expect, it } from 'vitest';
import { besideText, effectWord, shareWord } from './merit-model-words.js';

const feed = { name: 'Feed', fitted: true, whyNot: null, levels: 3, looksWithout: 0 };

describe('an own trait that scores are corrected for', () => {
  it('is told with its levels, or as a number', () => {
    expect(besideText(feed)).toBe('Corrected for Feed, in 3 levels.');
    expect(besideText({ ...feed, levels: 0 })).toBe(
      'Corrected for Feed, as a number: so much more of one for each unit more of the other.',
    );
  });

  it('tells how many scores had none of it', () => {
    expect(besideText({ ...feed, looksWithout: 2 })).toMatch(
      / 2 scores of fish without a score of Feed count as a level of their own\.$/,
    );
    expect(besideText({ ...feed, levels: 0, looksWithout: 1 })).toMatch(
      / 1 score .* counts as if at its mean\.$/,
    );
  });

  it('tells why it is not', () => {
    const none = { ...feed, fitted: false, whyNot: 'All looks are at one level of it.' };
    expect(besideText(none)).toBe('Not corrected for Feed: All looks are at one level of it.');
  });
});

describe('columns and parts', () => {
  it('are told as they are named where the API gives no word of its own', () => {
    expect(effectWord('Feed', '2')).toBe('Feed: 2');
    expect(effectWord('Depth', null)).toBe('Depth');
    expect(shareWord('brood')).toContain('shared by a brood');
  });
});
