/**
 * What a pair's young are expected to be, and what choosing the best of a brood adds, against printed figures.
 */
import { inbreedingCoefficients } from '@linewright/kinship';
import { bestOfBrood, expectedYoung, mendelianVariance } from '@linewright/mating';
import { selectionIntensity } from '@linewright/merit';
import { buildPedigree } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { expectPrinted } from './scores-of-rows.js';

describe('the value of young from both parents', () => {
  // Mrode RA (2014) Linear Models for the Prediction of Animal Breeding Values, 3rd ed, CABI, Example 1.4: values 180 and 70, accuracies
  // 0.97 and 0.77; the young 125 with an accuracy of 0.62. Read in the source.
  it('is their mean, with the accuracy printed', () => {
    const additive = 1;
    const parent = (value: number, accuracy: number) => ({
      value,
      standardError: Math.sqrt((1 - accuracy ** 2) * additive),
      inbreeding: 0,
    });
    const young = expectedYoung(parent(180, 0.97), parent(70, 0.77), {
      level: 0,
      additive,
      commonBrood: 0,
      residual: 0,
    });
    expect(young.mean).toBe(125);
    const unknown = young.parts.parentsErrors + young.parts.mendelian;
    expectPrinted([Math.sqrt(1 - unknown / additive)], [0.62], 2);
  });
});

describe('Mendelian sampling under inbreeding', () => {
  // Mrode RA (2014), chapter 2: the small pedigree of six animals, 1/d = 1, 1, 2, 1.333, 2, 2.133. From memory, confirmed by independent
  // computation. The fifth animal (F 1/8) and the second are the parents of the sixth; 3 and 5 have parents that are not inbred.
  it('is lessened by the F of the parents', () => {
    const pedigree = buildPedigree([
      { id: '1' },
      { id: '2' },
      { id: '3', sire: '1', dam: '2' },
      { id: '4', sire: '1' },
      { id: '5', sire: '4', dam: '3' },
      { id: '6', sire: '5', dam: '2' },
    ]);
    const f = inbreedingCoefficients(pedigree);
    const inverse = (sire: string, dam: string) =>
      1 / mendelianVariance(f[pedigree.indexOf(sire)]!, f[pedigree.indexOf(dam)]!, 1);
    expectPrinted([inverse('1', '2'), inverse('4', '3'), inverse('5', '2')], [2, 2, 2.133], 3);
  });
});

describe('the best of a brood', () => {
  // Harter HL (1961) Expected values of normal order statistics, Biometrika 48:151-165: samples of 2, 5 and 10. From memory.
  it('of one kept is the largest order statistic', () => {
    expectPrinted(
      [2, 5, 10].map((raised) => bestOfBrood(raised, 1)),
      [0.56419, 1.16296, 1.53875],
      5,
    );
  });

  it('of several kept is the mean of the largest', () => {
    const ten = [1.53875, 1.00136, 0.65606, 0.37576, 0.12267];
    ten.forEach((_, k) => {
      const mean = ten.slice(0, k + 1).reduce((sum, each) => sum + each, 0) / (k + 1);
      expect(bestOfBrood(10, k + 1)).toBeCloseTo(mean, 4);
    });
  });

  // Falconer DS, Mackay TFC (1996) Introduction to Quantitative Genetics, appendix table A: 2.665, 2.063, 1.755, 1.400 and 0.798 for a large
  // stock. From memory, confirmed by independent computation.
  it('comes to the intensity of a large stock, from below', () => {
    const shares = [0.01, 0.05, 0.1, 0.2, 0.5];
    const large = shares.map((share) => bestOfBrood(20_000, 20_000 * share));
    expectPrinted(large, [2.665, 2.063, 1.755, 1.4, 0.798], 3, 1.5);
    shares.forEach((share, k) => {
      expect(large[k]!).toBeLessThan(selectionIntensity(share));
      expect(bestOfBrood(100, 100 * share)).toBeLessThan(large[k]!);
    });
  });
});
