import { expect, it } from 'vitest';
import { afterWords } from './care-words.js';
import { span } from './figures.js';

it('a range whose ends read the same is one value', () => {
  expect(span('3', '8')).toBe('3 to 8');
  expect(span('100', '100')).toBe('100');
});

it('what a step waits for is quoted, so that no title runs into the sentence', () => {
  expect(afterWords(['Put the sire into the spawning tank'])).toBe(
    'after “Put the sire into the spawning tank”',
  );
  expect(afterWords(['a', 'b'])).toBe('after “a” and “b”');
});
