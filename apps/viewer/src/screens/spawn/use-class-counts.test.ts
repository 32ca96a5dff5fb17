import { expect, it } from 'vitest';
import { countedClasses } from './use-class-counts.js';

it('counts the classes that got a number, none among them too, and leaves blank boxes out', () => {
  expect(countedClasses(['single', 'double', 'unsure'], [12, null, 0])).toEqual([
    { phenotype: 'single', number: 12 },
    { phenotype: 'unsure', number: 0 },
  ]);
  expect(countedClasses(['single', 'double'], [])).toEqual([]);
});
