import { expect, it } from 'vitest';
import { placeAfter } from './place-after.js';

it.each([
  ['PLACED', 'owner', ''],
  ['PLACED', 'partner', 'partner'],
  ['PLACED', '', ''],
  ['KEEPER', '', 'owner'],
  ['DIED', '', 'owner'],
  ['KEEPER', 'partner', 'partner'],
  ['ELSEWHERE', 'partner', ''],
])('a fish decided %s that swam with %j swims with %j', (decided, place, after) => {
  expect(placeAfter(decided, place, 'owner')).toBe(after);
});
