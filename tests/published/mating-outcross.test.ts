/**
 * F of a cross and its backcrosses.
 *
 * Source: Falconer & Mackay 1996, Introduction to Quantitative Genetics, 4th edition, table 5.1, repeated backcrosses to an inbred parent.
 * Basis: from memory, confirmed by independent computation (F(t) = (1 + F_A + 2 F(t-1)) / 4 with F_A = 1). Three decimals are printed, so
 * they are met within half a unit of the third. Shares of blood of 1/2, 3/4, 7/8, 15/16: halved with each backcross, common practice.
 */
import { outcrossCourse } from '@linewright/mating';
import { describe, expect, it } from 'vitest';
import { beliefOf } from '../made-belief.js';

const course = (ownF: number, generations: number) => {
  const belief = beliefOf({ fish: 2 });
  belief.coancestry[0] = (1 + ownF) / 2;
  return outcrossCourse({
    ...{ belief, ofLine: [1, 0], aims: [], alleles: [], generations },
    fish: { partner: 1, mate: 0, back: 0 },
  }).generations;
};

describe('backcrosses to one fish of the line after an outcross', () => {
  it('fully inbred: the printed 0.5, 0.75, 0.875, 0.938, 0.969', () => {
    const [first, ...backcrosses] = course(1, 6);
    expect(first!.inbreeding).toBe(0);
    [0.5, 0.75, 0.875, 0.938, 0.969].forEach((printed, t) => {
      expect(Math.abs(backcrosses[t]!.inbreeding - printed)).toBeLessThanOrEqual(0.0005);
    });
  });

  it('not inbred: 1/4, 3/8, 7/16', () => {
    expect(course(0, 4).map(({ inbreeding }) => inbreeding)).toEqual([0, 1 / 4, 3 / 8, 7 / 16]);
  });

  it('the share of blood of the line is 1/2, 3/4, 7/8, 15/16', () => {
    const shares = course(0, 4).map(({ lineShare }) => lineShare);
    expect(shares).toEqual([1 / 2, 3 / 4, 7 / 8, 15 / 16]);
  });
});
