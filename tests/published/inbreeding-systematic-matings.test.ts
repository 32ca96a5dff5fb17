/**
 * F over generations of systematic mating, from explicit pedigrees: no recurrence is used in the code under test.
 *
 * Source: Wright S (1921) Genetics 6:111-178; Falconer DS & Mackay TFC (1996) Introduction to Quantitative Genetics, 4th
 * edition, Table 5.1; half sibs also Crow JF & Kimura M (1970) pp. 132-143. Basis: from memory, confirmed by independent
 * computation (exact fractions by recurrence). Printed with three decimals.
 */
import { inbreedingCoefficients, tabularInbreeding, tracedInbreeding } from '@linewright/kinship';
import { describe, expect, it } from 'vitest';
import { explicitPedigree, lastPlace, type PedigreeRow } from './explicit-pedigree.js';

const generation = (prefix: string, count: number, from = 1) =>
  Array.from({ length: count }, (_, k) => `${prefix}${k + from}`);

function seriesOf(rows: readonly PedigreeRow[], ids: readonly string[]): number[] {
  const pedigree = explicitPedigree(rows);
  const methods = [inbreedingCoefficients, tabularInbreeding, tracedInbreeding].map((method) => {
    const f = method(pedigree);
    return ids.map((id) => f[pedigree.indexOf(id)]!);
  });
  expect(methods[1]).toEqual(methods[0]);
  expect(methods[2]).toEqual(methods[0]);
  return methods[0]!;
}

function expectPrinted(series: readonly number[], printed: readonly number[]): void {
  printed.forEach((value, t) => {
    expect(Math.abs(series[t]! - value), `generation ${t + 1}`).toBeLessThanOrEqual(lastPlace(3));
  });
}

const FULL_SIB_EXACT = [
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
  3719 / 4096,
  3791 / 4096,
  15397 / 16384,
  31171 / 32768,
  7869 / 8192,
  126891 / 131072,
  255379 / 262144,
  256671 / 262144,
  1030865 / 1048576,
  2068495 / 2097152,
];

describe('systematic mating', () => {
  it('self-fertilisation', () => {
    const rows = generation('s', 10).map((id, t): PedigreeRow => [id, `s${t}`, `s${t}`]);
    const series = seriesOf(rows, generation('s', 10));
    expect(series).toEqual(Array.from({ length: 10 }, (_, t) => 1 - (1 / 2) ** (t + 1)));
    expectPrinted(series, [0.5, 0.75, 0.875, 0.938, 0.969, 0.984, 0.992, 0.996, 0.998, 0.999]);
  });

  it('full sibs', () => {
    const rows: PedigreeRow[] = [];
    for (let t = 1; t <= 21; t++) {
      rows.push([`m${t}`, `m${t - 1}`, `f${t - 1}`], [`f${t}`, `m${t - 1}`, `f${t - 1}`]);
    }
    const series = seriesOf(rows, generation('m', 20, 2));
    expect(series).toEqual(FULL_SIB_EXACT);
    expectPrinted(
      series,
      [
        0.25, 0.375, 0.5, 0.594, 0.672, 0.734, 0.785, 0.826, 0.859, 0.886, 0.908, 0.926, 0.94,
        0.951, 0.961, 0.968, 0.974, 0.979, 0.983, 0.986,
      ],
    );
  });

  it('offspring by younger parent gives the full-sib series', () => {
    const rows: PedigreeRow[] = [['x1', 'x0', 'x-1']];
    for (let t = 2; t <= 11; t++) rows.push([`x${t}`, `x${t - 1}`, `x${t - 2}`]);
    expect(seriesOf(rows, generation('x', 10, 2))).toEqual(FULL_SIB_EXACT.slice(0, 10));
  });

  it('half sibs: one sire with a growing set of half-sib females, themselves half sibs', () => {
    const rows: PedigreeRow[] = [];
    const generations = 11;
    for (let t = 1; t <= generations; t++) {
      // The young of dam 0 is the next sire; those of the others are the next dams.
      for (let k = 0; k <= generations - t + 1; k++) {
        rows.push([k === 0 ? `sire${t}` : `dam${t}.${k - 1}`, `sire${t - 1}`, `dam${t - 1}.${k}`]);
      }
    }
    const series = seriesOf(rows, generation('sire', 10, 2));
    expect(series).toEqual([
      1 / 8,
      7 / 32,
      39 / 128,
      195 / 512,
      919 / 2048,
      4171 / 8192,
      18447 / 32768,
      80067 / 131072,
      342631 / 524288,
      1450171 / 2097152,
    ]);
    expectPrinted(series, [0.125, 0.219, 0.305, 0.381, 0.449, 0.509, 0.563, 0.611, 0.654, 0.691]);
  });

  it('repeated backcross to an inbred parent', () => {
    // Forty generations of selfing bring F to 1 within a part in 10^12.
    const rows: PedigreeRow[] = generation('a', 40).map((id, t) => [id, `a${t}`, `a${t}`]);
    rows.push(['b0', 'a40', 'other']);
    for (let t = 1; t <= 5; t++) rows.push([`b${t}`, 'a40', `b${t - 1}`]);
    expectPrinted(seriesOf(rows, generation('b', 5)), [0.5, 0.75, 0.875, 0.938, 0.969]);
  });

  it('backcross to a non-inbred parent tends to 1/2', () => {
    const rows: PedigreeRow[] = [['b0', 'a', 'other']];
    for (let t = 1; t <= 5; t++) rows.push([`b${t}`, 'a', `b${t - 1}`]);
    expect(seriesOf(rows, generation('b', 5))).toEqual([1 / 4, 3 / 8, 7 / 16, 15 / 32, 31 / 64]);
  });

  it('double first cousins: four individuals, mating of sibs avoided as far as can be', () => {
    const rows: PedigreeRow[] = [];
    for (let t = 1; t <= 11; t++) {
      const [a, b, c, d] = [0, 1, 2, 3].map((k) => `${t - 1}.${k}`) as [
        string,
        string,
        string,
        string,
      ];
      // Two pairs, one young of either in each pair of the next generation.
      rows.push([`${t}.0`, a, b], [`${t}.1`, c, d], [`${t}.2`, a, b], [`${t}.3`, c, d]);
    }
    const series = seriesOf(
      rows,
      Array.from({ length: 9 }, (_, t) => `${t + 3}.0`),
    );
    expect(series.slice(0, 8)).toEqual([
      1 / 8,
      3 / 16,
      1 / 4,
      5 / 16,
      47 / 128,
      107 / 256,
      119 / 256,
      65 / 128,
    ]);
    expect(series[8]).toBe(1121 / 2048);
  });
});
