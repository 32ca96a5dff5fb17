import { expect, it } from 'vitest';
import { otherChances, restWords } from './list-ends.js';

it('a list of the largest parts of F says how many others there are and what they add', () => {
  const listed = [{ contribution: 0.125 }, { contribution: 0.0625 }];
  expect(restWords(listed, 2, 0.1875, 'common ancestors')).toBeNull();
  expect(restWords(listed, 9, 0.2, 'common ancestors')).toBe(
    'The 2 of 9 common ancestors that add most are listed. The other 7 add 1.250 % together.',
  );
});

it('a list of the likeliest says how likely all others are', () => {
  expect(otherChances([0.75, 0.25])).toBeNull();
  expect(otherChances([])).toBeNull();
  expect(otherChances([0.75, 0.125])).toBe('All others together: 12.5 %.');
});
