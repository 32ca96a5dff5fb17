import { expect, it } from 'vitest';
import { wordsAround } from './words-around.js';

it('shows a note around the words looked for', () => {
  expect(wordsAround('Bites when fed.', 'BITES')).toBe('Bites when fed.');
  expect(wordsAround(`${'a'.repeat(60)} bites ${'b'.repeat(60)}`, 'bites')).toBe(
    `…${'a'.repeat(39)} bites ${'b'.repeat(39)}…`,
  );
  expect(wordsAround('one\n  two', 'one two')).toBe('one two');
});

it('shows nothing of a note without them', () => {
  expect(wordsAround('Bites when fed.', 'calm')).toBeNull();
  expect(wordsAround(null, 'calm')).toBeNull();
});
