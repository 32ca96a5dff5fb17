import { describe, expect, it } from 'vitest';
import type { BenchLocus } from './bench-facts.js';
import { cullOf, slipsOfCull, type TypedCull } from './cull-count.js';

const typed = (given: Partial<TypedCull> = {}): TypedCull => ({
  ...{ number: '12', reason: ' bent spine ', heritable: false, locusId: '', phenotype: '' },
  ...given,
});
const loci = [{ id: 'dt' }] as BenchLocus[];

describe('a cull of fry as it is typed', () => {
  it.each(['', '0', '2.5', '5001', 'many', '0x1F'])('needs a number of fry: not %j', (number) => {
    expect(slipsOfCull(typed({ number })).number).toContain('1 to 5000');
  });

  it.each(['12', ' 12 ', '12,0'])('reads %j as in every other form', (number) => {
    expect(slipsOfCull(typed({ number }))).toEqual({});
    expect(cullOf(typed({ number }), loci).number).toBe(12);
  });

  it('needs a reason, and is ready with both', () => {
    expect(slipsOfCull(typed({ reason: '  ' }))).toEqual({ reason: expect.any(String) });
    expect(slipsOfCull(typed())).toEqual({});
  });

  it('names a locus and counts a class only where the fault is thought to be heritable', () => {
    const split = { locusId: 'dt', phenotype: 'split' };
    expect(cullOf(typed({ ...split, heritable: true }), loci)).toEqual({
      ...{ number: 12, reason: 'bent spine', heritable: true, locusId: 'dt', seen: split },
    });
    expect(cullOf(typed(split), loci)).toMatchObject({ locusId: null, seen: null });
    const uncounted = cullOf(typed({ locusId: 'dt', heritable: true }), loci);
    expect([uncounted.locusId, uncounted.seen]).toEqual(['dt', null]);
  });
});
