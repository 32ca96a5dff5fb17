import { describe, expect, it } from 'vitest';
import { choiceWords } from './choice-words.js';

const words = (chosen: number, inFilter: number | null, beyond = 0) =>
  choiceWords({ chosen, inFilter, beyond });

describe('what is said of a choice', () => {
  it('tells how many are chosen, and which of them the filter hides', () => {
    expect(words(0, 0)).toContain('up to 200');
    expect(words(1, 1)).toBe('1 fish chosen.');
    expect(words(12, null)).toBe('12 fish chosen.');
    expect(words(12, 9)).toBe('12 fish chosen, 3 of them not in this list.');
    expect(words(12, 0)).toBe('12 fish chosen, none of them in this list.');
  });

  it('tells what is beyond the most', () => {
    expect(words(200, 200, 212)).toBe(
      '200 fish chosen. 212 more are not: 200 is the most at once.',
    );
    expect(words(200, 200, 1)).toContain('1 more is not');
  });
});
