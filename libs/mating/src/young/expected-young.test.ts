import { describe, expect, it } from 'vitest';
import { MatingError } from '../mating-error.js';
import { expectedYoung, normalCurve } from './expected-young.js';

const trait = { level: 170, additive: 40, commonBrood: 3, residual: 20 };
const parent = { value: 4, standardError: 2, inbreeding: 0 };

describe('what young are expected to be', () => {
  it('is the level and half of both values, with what is shared apart from what is not', () => {
    const young = expectedYoung(parent, { value: -2, standardError: 3, inbreeding: 0.5 }, trait);
    expect(young.mean).toBe(171);
    expect(young.parts).toEqual({
      parentsErrors: 13 / 4,
      commonBrood: 3,
      mendelian: 15,
      residual: 20,
    });
    expect(young.between).toBe(13 / 4 + 3);
    expect(young.within).toBe(35);
  });

  it('counts errors of the parents that go together', () => {
    expect(expectedYoung(parent, parent, trait, 1.5).parts.parentsErrors).toBe((4 + 4 + 3) / 4);
  });

  it('leaves two wholly inbred parents no draw of alleles', () => {
    const inbred = { ...parent, inbreeding: 1 };
    expect(expectedYoung(inbred, inbred, trait).parts.mendelian).toBe(0);
  });

  it.each([
    ['sire.value', { ...parent, value: Number.NaN }, trait],
    ['sire.standardError', { ...parent, standardError: -1 }, trait],
    ['sire.inbreeding', { ...parent, inbreeding: 1.2 }, trait],
    ['additive', parent, { ...trait, additive: -1 }],
    ['level', parent, { ...trait, level: Infinity }],
  ] as const)('refuses %s and names it', (subject, sire, variation) => {
    try {
      expectedYoung(sire, parent, variation);
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(MatingError);
      expect(error).toMatchObject({ code: 'MATING_BAD_VALUE', subject });
    }
  });
});

describe('the curve', () => {
  it('holds nearly all of the young, thickest at their mean', () => {
    const curve = normalCurve(170, 25);
    const step = curve[1]!.at - curve[0]!.at;
    expect(curve.reduce((sum, { density }) => sum + density * step, 0)).toBeCloseTo(1, 3);
    const top = curve.toSorted((a, b) => b.density - a.density)[0]!;
    expect(top.at).toBeCloseTo(170, 9);
  });

  it('is none where all are alike', () => {
    expect(normalCurve(170, 0)).toEqual([]);
  });
});
