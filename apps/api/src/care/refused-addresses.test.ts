import { describe, expect, it } from 'vitest';
import { RefusedAddresses } from './refused-addresses.js';

describe('callers with wrong calendar addresses', () => {
  it('are held back after thirty in ten minutes, each for itself, and then let try again', () => {
    let now = 0;
    const refused = new RefusedAddresses(() => now);
    for (let i = 0; i < 29; i += 1) refused.note('a');
    expect(refused.tooMany('a')).toBe(false);
    refused.note('a');
    expect(refused.tooMany('a')).toBe(true);
    expect(refused.tooMany('b')).toBe(false);
    now = 10 * 60_000 + 1;
    expect(refused.tooMany('a')).toBe(false);
    refused.note('a');
    expect(refused.tooMany('a')).toBe(false);
  });
});
