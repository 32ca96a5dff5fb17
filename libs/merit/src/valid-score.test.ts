import { describe, expect, it } from 'vitest';
import { type ScoreScale, scoreSlip } from './valid-score.js';

const scale = (kind: ScoreScale['kind'], minimum: number | null, maximum: number | null) => ({
  kind,
  minimum,
  maximum,
});

describe('a value of a trait', () => {
  it.each([
    ['ordinal', 1, 10, 7, null],
    ['ordinal', 1, 10, 7.5, 'not-whole'],
    ['ordinal', 1, 10, 0, 'below'],
    ['ordinal', 1, 10, 11, 'above'],
    ['count', 0, null, 2.5, 'not-whole'],
    ['count', 0, null, 2_000, null],
    ['measured', 0, 90, 7.5, null],
    ['measured', 0, 90, 90.5, 'above'],
    ['measured', null, null, -1e9, null],
    ['measured', null, null, Number.NaN, 'not-a-number'],
    ['measured', null, null, Infinity, 'not-a-number'],
    ['yes_no', null, null, 1, null],
    ['yes_no', null, null, 2, 'not-yes-or-no'],
    ['yes_no', 0, 1, 0.5, 'not-yes-or-no'],
  ] as const)('%s from %s to %s, %s: %s', (kind, least, most, value, slip) => {
    expect(scoreSlip(scale(kind, least, most), value)).toBe(slip);
  });

  it('of an older version is held against its kind alone', () => {
    expect(scoreSlip(scale('ordinal', 1, 5), 9, false)).toBeNull();
    expect(scoreSlip(scale('ordinal', 1, 5), 9.5, false)).toBe('not-whole');
  });
});
