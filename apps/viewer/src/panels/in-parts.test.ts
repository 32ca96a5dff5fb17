import { expect, it } from 'vitest';
import { inParts } from './in-parts.js';

it('a list in parts has each item once, in its order', () => {
  expect(inParts(['a', 'b', 'a', 'c', 'd', 'e'], 2)).toEqual([['a', 'b'], ['c', 'd'], ['e']]);
  expect(inParts([], 2)).toEqual([]);
});
