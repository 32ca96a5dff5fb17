import { describe, expect, it } from 'vitest';
import {
  inheritanceVerdict,
  linkageVerdict,
  recombinationText,
  weightText,
} from './inheritance-words.js';

const answer = {
  recombination: 0.084,
  standardError: 0.02,
  lod: 5,
  low: 0.04,
  high: 0.151,
  verdict: 'TOGETHER',
  notCloserThan: 0,
  young: 120,
  inSires: null,
  inDams: null,
} as const;

describe('what is said of inheritance', () => {
  it('gives how often two loci part with its interval', () => {
    expect(recombinationText(answer)).toBe('8.4 of 100 gametes (4.0 to 15)');
    expect(recombinationText({ ...answer, recombination: 0, low: 0 })).toBe(
      '0 of 100 gametes (0 to 15)',
    );
    expect(linkageVerdict(answer)).toContain('part in about 8.4 of 100 gametes (4.0 to 15).');
  });

  it('never calls a lack of evidence evidence of nothing', () => {
    expect(linkageVerdict({ ...answer, verdict: 'CANNOT_TELL' })).toMatch(
      /^These broods cannot tell yet. Count/,
    );
    expect(linkageVerdict({ ...answer, verdict: 'CANNOT_TELL', notCloserThan: 0.12 })).toContain(
      'at least 12 of 100',
    );
    expect(linkageVerdict({ ...answer, verdict: 'APART', notCloserThan: 0.36 })).toContain(
      'at least 36 of 100',
    );
    expect(inheritanceVerdict({ verdict: 'CANNOT_TELL', leftOut: 4 })).toBe(
      'These records cannot tell yet.',
    );
    expect(inheritanceVerdict({ verdict: 'ONE_LOCUS', leftOut: 0 })).toMatch(/^It looks/);
    expect(inheritanceVerdict({ verdict: 'ONE_LOCUS', leftOut: 4 })).toBe(
      'Of the ways that could be weighed: it looks inherited through one locus.',
    );
    expect([1, 0.98, 0].map(weightText)).toEqual(['over 99.9 %', '98.0 %', 'under 0.1 %']);
  });
});
