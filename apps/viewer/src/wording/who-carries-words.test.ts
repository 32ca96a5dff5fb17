import { expect, it } from 'vitest';
import { countsText, onlyText } from './who-carries-words.js';

it('counts all fish in use once', () => {
  expect(countsText({ inUse: 84, sure: 3, possible: 24, unlikely: 9, notKnown: 4 })).toBe(
    'Of 84 fish in use: 3 carry it (95 % or surer), 12 may, 9 hardly (below 5 %), 56 do not; of 4 nothing is known, from them or their relatives.',
  );
  expect(countsText({ inUse: 1, sure: 1, possible: 1, unlikely: 0, notKnown: 0 })).toBe(
    'Of 1 fish in use: 1 carry it (95 % or surer), 0 may, 0 do not.',
  );
});

it('tells a last carrier, and hardly one not at all', () => {
  expect(onlyText(1, 'PE')).toBe('the only one of PE');
  expect(onlyText(0.62, 'PE')).toBe('the only one of PE? 62.0 %');
  expect(onlyText(0.01, 'PE')).toBeNull();
  expect(onlyText(null, 'PE')).toBeNull();
  expect(onlyText(1, null)).toBeNull();
});
