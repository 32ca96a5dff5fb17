/**
 * F over generations of regular schemes, projected through explicit hypothetical pedigrees.
 *
 * Source: Wright 1921, Genetics 6:111-178; Falconer & Mackay 1996, Introduction to Quantitative Genetics, 4th edition,
 * table 5.1. Basis: from memory, confirmed by independent computation. The exact fractions come from the recurrences
 * F(t) = (1 + 2 F(t-1) + F(t-2)) / 4 (full siblings), F(t) = (1 + 6 F(t-1) + F(t-2)) / 8 (half siblings) and
 * F(t) = (1 + F_A + 2 F(t-1)) / 4 (backcross to A); no recurrence is used in the code under test. Three decimals are
 * printed, so the printed figures are met within half a unit of the third; the fractions exactly.
 */
import { projectRoute, type RouteScheme } from '@linewright/mating';
import { buildPedigree, type ParentageRecord } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';

const founders = ['A', 'B', 'C', 'D', 'E', 'F'].map((id): ParentageRecord => ({ id }));

function project(
  scheme: RouteScheme,
  generations: number,
  records: readonly ParentageRecord[] = founders,
): number[] {
  const pedigree = buildPedigree(records);
  return projectRoute({ pedigree, sireId: 'A', damId: 'B', scheme, generations }).map(
    (step) => step.meanInbreeding,
  );
}

describe('full siblings', () => {
  const exact = [
    1 / 4,
    3 / 8,
    1 / 2,
    19 / 32,
    43 / 64,
    47 / 64,
    201 / 256,
    423 / 512,
    55 / 64,
    1815 / 2048,
  ];
  const printed = [0.25, 0.375, 0.5, 0.594, 0.672, 0.734, 0.785, 0.826, 0.859, 0.886];
  // The first brood of unrelated fish has F = 0; the table starts with the brood of its siblings.
  const [first, ...projected] = project({ kind: 'full-siblings' }, 11);

  it('reach the exact fractions and the printed figures', () => {
    expect(first).toBe(0);
    expect(projected).toEqual(exact);
    projected.forEach((f, t) =>
      expect(Math.abs(f - (printed[t] ?? NaN))).toBeLessThanOrEqual(0.0005),
    );
  });
});

describe('backcross to one parent', () => {
  it('of a fish that is not inbred reaches 1/4, 3/8, 7/16', () => {
    expect(project({ kind: 'backcross', parentId: 'A' }, 4)).toEqual([0, 1 / 4, 3 / 8, 7 / 16]);
  });

  it('of a highly inbred fish nears the printed 0.5, 0.75, 0.875, 0.938, 0.969 of a fully inbred one', () => {
    const inbred: ParentageRecord[] = [{ id: 'x0' }, { id: 'y0' }];
    for (let t = 1; t <= 80; t++) {
      const parents = { sire: `x${String(t - 1)}`, dam: `y${String(t - 1)}` };
      inbred.push({ id: `x${String(t)}`, ...parents }, { id: `y${String(t)}`, ...parents });
    }
    inbred.push({ id: 'A', sire: 'x80', dam: 'y80' }, { id: 'B' });
    const [first, ...projected] = project({ kind: 'backcross', parentId: 'A' }, 6, inbred);
    expect(first).toBe(0);
    [0.5, 0.75, 0.875, 0.938, 0.969].forEach((printed, t) => {
      expect(Math.abs((projected[t] ?? NaN) - printed)).toBeLessThanOrEqual(0.00051);
    });
  });
});

describe('half siblings', () => {
  it('reach 1/8, 7/32, 39/128, 195/512 in every brood', () => {
    const scheme: RouteScheme = { kind: 'half-siblings', otherDamIds: ['C', 'D', 'E', 'F'] };
    expect(project(scheme, 5)).toEqual([0, 1 / 8, 7 / 32, 39 / 128, 195 / 512]);
  });
});
