import { describe, expect, it } from 'vitest';
import type { FishMerit } from '../../api/merit.js';
import { knownOf, openFirst } from './merit-known.js';

const of = (id: string, kind: 'LINEAR' | 'THRESHOLD' | null, young = true) =>
  ({
    trait: { id },
    value: kind === null ? null : { kind },
    expectedYoung: young ? {} : null,
  }) as unknown as FishMerit;

describe('what a fish passes on', () => {
  it('is known with a value and an expectation of young', () => {
    const merit = [of('a', 'LINEAR'), of('b', null), of('c', 'LINEAR', false)];
    expect(knownOf(merit).map(({ trait }) => trait.id)).toEqual(['a']);
  });

  it('stands open at the first measure, else at the first', () => {
    expect(openFirst([of('a', 'THRESHOLD'), of('b', 'LINEAR'), of('c', 'LINEAR')])).toBe('b');
    expect(openFirst([of('a', 'THRESHOLD'), of('b', 'THRESHOLD')])).toBe('a');
    expect(openFirst([])).toBeUndefined();
  });
});
