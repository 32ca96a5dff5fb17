import { describe, expect, it } from 'vitest';
import { guideReached, nitrateAsIon } from './limits.js';

describe('a guide for nitrite or nitrate', () => {
  it('is reached at its figure, and by nothing below it or not measured', () => {
    expect(guideReached('nitrite', 0.1, 'ION')?.of).toBe('nitrite');
    expect(guideReached('nitrite', 0.09, 'ION')).toBeNull();
    expect(guideReached('nitrite', null, null)).toBeNull();
    expect(guideReached('nitrate', 40, 'ION')?.of).toBe('nitrate');
    expect(guideReached('nitrate', 39, 'ION')).toBeNull();
  });

  it('of nitrate is compared as the ion: 10 mg/L as N are 44.3 (molar masses 14.007 and 62.004)', () => {
    expect(nitrateAsIon(10, 'N')).toBeCloseTo((10 * 62.004) / 14.007, 9);
    expect(guideReached('nitrate', 10, 'N')?.of).toBe('nitrate');
    expect(guideReached('nitrate', 10, 'ION')).toBeNull();
  });

  it('names a remedy, and no salt', () => {
    for (const of of ['nitrite', 'nitrate'] as const) {
      expect(guideReached(of, 1_000, 'ION')?.remedy).toContain('clean, treated water');
    }
    expect(guideReached('nitrite', 1, 'N')?.remedy).toContain('Do not add salt');
  });
});
