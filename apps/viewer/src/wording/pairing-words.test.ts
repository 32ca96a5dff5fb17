import { describe, expect, it } from 'vitest';
import { lineWithYoungWords } from './pairing-words.js';

describe('what young do to the kinship of their line', () => {
  const line = { fish: 24, keep: 3, now: 0.152, ofYoung: 0.181, after: 0.156 };

  it('is told as a rise, a fall, or neither', () => {
    expect(lineWithYoungWords(line)).toBe(
      'The line: with 3 young of this pair kept beside its 24 fish in use, mean kinship rises from 15.20 % to 15.60 %, each fish with itself included. A young’s mean kinship with the line is 18.10 %.',
    );
    expect(lineWithYoungWords({ ...line, after: 0.15 })).toContain('falls from 15.20 % to 15.00 %');
    expect(lineWithYoungWords({ ...line, after: 0.15201 })).toContain('stays at 15.20 %');
  });
});
