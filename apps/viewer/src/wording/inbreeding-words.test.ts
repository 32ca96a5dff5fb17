import { expect, it } from 'vitest';
import { allKnown, leastMeanText, leastText, leastPercent } from './inbreeding-words.js';

it('a mean of F says how many of them are lowest values, and nothing when all are known', () => {
  const known = { inbreedingBasis: 'KNOWN' } as const;
  expect(leastText([known, known])).toBe('');
  expect(leastText([known, { inbreedingBasis: 'AT_LEAST' }, { inbreedingBasis: 'UNKNOWN' }])).toBe(
    ', or more: fish of unknown origin are behind 2 of 3 of these F',
  );
});

it('a mean coancestry says that it is a lowest value where the origin of some fish is unknown', () => {
  const known = { inbreedingBasis: 'KNOWN' } as const;
  expect(leastMeanText([known, known])).toBeNull();
  expect(leastMeanText([known, { inbreedingBasis: 'AT_LEAST' }])).toBe(
    'this or more: fish of unknown origin are behind 1 of 2 fish in use',
  );
});

it('a mean of F says that it is the least it can be where an origin is unknown', () => {
  expect(leastPercent(0.125, true)).toBe('12.50 %');
  expect(leastPercent(0.125, false)).toBe('≥ 12.50 %');
  expect(allKnown([{ inbreedingBasis: 'KNOWN' }, { inbreedingBasis: 'KNOWN' }])).toBe(true);
  expect(allKnown([{ inbreedingBasis: 'KNOWN' }, { inbreedingBasis: 'AT_LEAST' }])).toBe(false);
  expect(allKnown([{ inbreedingBasis: 'UNKNOWN' }])).toBe(false);
});
