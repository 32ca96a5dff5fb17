import { describe, expect, it } from 'vitest';
import { besideLimit } from './water-alerts.js';

describe('a figure beside its limit', () => {
  it.each([
    [0.0351, 0.02, '0.035 mg/L'],
    [0.0204, 0.02, '0.0204 mg/L'],
    [0.020003, 0.02, '0.020003 mg/L'],
    [0.0196, 0.02, '0.0196 mg/L'],
    [0.02, 0.02, '0.02 mg/L'],
  ])('%d with a limit of %d reads %s', (value, limit, words) => {
    expect(besideLimit(value, limit)).toBe(words);
  });
});
