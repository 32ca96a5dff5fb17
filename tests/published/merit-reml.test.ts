/**
 * Variances by restricted maximum likelihood, against printed examples. Exact optima of the restricted likelihood were computed
 * independently (dense maximisation; lme4 in R gives the same); sources of the data stand at each case.
 */
import {
  animalModel,
  Equations,
  reml,
  type MixedModel,
  type RandomTerm,
  type RemlResult,
} from '@linewright/merit';
import { describe, expect, it } from 'vitest';
import { explicitPedigree, type PedigreeRow } from './explicit-pedigree.js';
import { classes, expectPrinted, levelsOf } from './scores-of-rows.js';
import {
  chickens,
  dyestuff2,
  oats,
  pastes,
  penicillin,
  rail,
  sleep,
  steers,
} from './variance-data.js';

function term(name: string, labels: readonly string[]): RandomTerm {
  const { levels, codes } = levelsOf(labels);
  return { name, levels: levels.length, slots: [{ trait: 0, level: codes }] };
}

function model(
  y: readonly number[],
  random: readonly RandomTerm[],
  fixed: MixedModel['fixed'] = [],
): Equations {
  const traits = [{ name: 'y', values: Float64Array.from(y) }];
  return new Equations({ rows: y.length, traits, fixed, random });
}

const errorsOf = ({ covariances, parameters: { length } }: RemlResult): number[] =>
  Array.from({ length }, (_, k) => Math.sqrt(covariances[k * length + k]!));

const fixedErrors = ({ fit }: RemlResult): number[] =>
  Array.from(fit.errorVariances().slice(0, fit.equations.design.equations.length), Math.sqrt);

const fixedOf = ({ fit }: RemlResult): Float64Array =>
  fit.solution.slice(0, fit.equations.design.equations.length);

interface Printed {
  readonly values: readonly number[];
  readonly errors: readonly number[];
  readonly deviance: number;
  readonly mean?: readonly [number, number];
}

function expectResult(result: RemlResult, printed: Printed, decimals = 4): void {
  expectPrinted(result.values, printed.values, decimals, 1);
  expectPrinted([-2 * result.logLikelihood], [printed.deviance], 4, 1);
  expectPrinted(errorsOf(result), printed.errors, decimals, 1);
  if (printed.mean === undefined) return;
  expectPrinted([...fixedOf(result), ...fixedErrors(result)], printed.mean, 4, 1);
}

describe('one random term or two', () => {
  // Davies OL & Goldsmith PL (1972) Statistical Methods in Research and Production, 4th ed., Table 6.6 and sections 6.4 and 6.5; estimates
  // printed in Bates D et al. (2015) J Stat Softw 67(1). Data from the open data set (R package lme4), estimates from memory.
  it('penicillin: plates and samples, crossed', () => {
    const result = reml(
      model(
        penicillin.map(([, , y]) => y),
        [
          term(
            'plate',
            penicillin.map(([plate]) => plate),
          ),
          term(
            'sample',
            penicillin.map(([, sample]) => sample),
          ),
        ],
      ),
    );
    expectResult(result, {
      values: [0.7169, 3.7309, 0.3024],
      errors: [0.2264, 2.3676, 0.0399],
      deviance: 330.8606,
      mean: [22.9722, 0.8086],
    });
    expect(result.iterations).toBeLessThan(15);
  });

  it('paste: samples within batches', () => {
    const result = reml(
      model(
        pastes.map(([, , y]) => y),
        [
          term(
            'batch',
            pastes.map(([batch]) => batch),
          ),
          term(
            'sample',
            pastes.map(([, sample]) => sample),
          ),
        ],
      ),
    );
    expectResult(result, {
      values: [1.6573, 8.4337, 0.678],
      errors: [2.3494, 2.7755, 0.1751],
      deviance: 246.9907,
      mean: [60.0533, 0.6769],
    });
  });

  it('dyestuff: six batches of five', () => {
    const batches = [
      [1545, 1440, 1440, 1520, 1580],
      [1540, 1555, 1490, 1560, 1495],
      [1595, 1550, 1605, 1510, 1560],
      [1445, 1440, 1595, 1465, 1545],
      [1595, 1630, 1515, 1635, 1625],
      [1520, 1455, 1450, 1480, 1445],
    ];
    const labels = batches.flatMap((values, k) => values.map(() => String(k)));
    const result = reml(model(batches.flat(), [term('batch', labels)]));
    expectPrinted(result.values, [1764.05, 2451.25], 2);
    expectPrinted([-2 * result.logLikelihood, fixedOf(result)[0]!], [319.65, 1527.5], 2);
  });

  // Devore JL (2000) Probability and Statistics for Engineering and the Sciences, 5th ed., example 10.10; printed in Pinheiro JC & Bates DM
  // (2000) Mixed-Effects Models in S and S-PLUS, chapter 1. Data from the open data set (R package nlme), estimates from memory.
  it('rails: travel of a wave', () => {
    const labels = rail.map(([label]) => label);
    expectResult(
      reml(
        model(
          rail.map(([, y]) => y),
          [term('rail', labels)],
        ),
      ),
      {
        values: [615.3111, 16.1667],
        errors: [392.5713, 6.6],
        deviance: 122.177,
        mean: [66.5, 10.171],
      },
    );
  });

  // Box GEP & Tiao GC (1973) Bayesian Inference in Statistical Analysis, table 5.1.4. Data from the open data set (R package lme4).
  it('a variance of zero is an answer', () => {
    const labels = dyestuff2.map(([label]) => label);
    const result = reml(
      model(
        dyestuff2.map(([, y]) => y),
        [term('batch', labels)],
      ),
    );
    expect(result.values[0]).toBe(0);
    expect(result.atEdge).toEqual([true, false]);
    expectPrinted([result.values[1]!], [13.8063], 4, 1);
    expectPrinted([-2 * result.logLikelihood], [161.8283], 4, 1);
    expectPrinted([fixedOf(result)[0]!, fixedErrors(result)[0]!], [5.6656, 0.6784], 4, 1);
  });
});

describe('with fixed columns', () => {
  // Yates F (1935) J R Stat Soc Suppl 2:181-247; printed in Pinheiro & Bates (2000). Data from the open data set (R package nlme). Fixed: mean
  // and nitrogen as a covariate.
  it('oats on a split plot', () => {
    const plot = oats.map(([block, variety]) => `${block} ${variety}`);
    const nitrogen = Float64Array.from(oats, ([, , nitro]) => nitro);
    const result = reml(
      model(
        oats.map(([, , , y]) => y),
        [
          term(
            'block',
            oats.map(([block]) => block),
          ),
          term('plot', plot),
        ],
        [{ kind: 'covariate', name: 'nitrogen', values: nitrogen }],
      ),
    );
    expectResult(result, {
      values: [210.4236, 121.1034, 165.5585],
      errors: [168.7948, 66.823, 32.1609],
      deviance: 593.0418,
    });
    expectPrinted(fixedOf(result), [81.8722, 73.6667], 4, 1);
    expectPrinted(fixedErrors(result), [6.9453, 6.7815], 4, 1);
  });

  // Harvey WR (1960) Least-squares analysis of data with unequal subclass numbers, USDA ARS-20-8, p. 101-102. Data read in the source (open
  // data collection, R package agridat).
  it('steers: a sire model, and the same as an animal model', () => {
    const gains = steers.map(([, , , y]) => y);
    const lines = classes(
      'line',
      steers.map(([line]) => line),
    );
    const ages = {
      kind: 'classes' as const,
      name: 'age of dam',
      levels: ['A3', 'A4', 'A5'],
      codes: Int32Array.from(steers, ([, , age]) => Number(age[1]) - 3),
    };
    const sires = steers.map(([, sire]) => sire);
    const result = reml(model(gains, [term('sire', sires)], [lines, ages]));
    expectPrinted(result.values, [0.01347, 0.06503], 5, 1);
    expectPrinted(errorsOf(result), [0.01326, 0.01251], 5, 1);
    const [l1, l2, l3, ...age] = fixedOf(result);
    expectPrinted(
      [l1!, l2! - l1!, l3! - l1!, ...age],
      [2.47825, 0.13371, -0.06534, -0.04218, -0.0996],
      5,
      1,
    );
    expectPrinted(
      [0, 3, 4].map((k) => fixedErrors(result)[k]!),
      [0.11334, 0.10015, 0.08734],
      5,
      1,
    );

    const pedigree = explicitPedigree(sires.map((sire, k): PedigreeRow => [`c${k}`, sire, null]));
    const animal = animalModel({
      pedigree,
      fish: Int32Array.from(gains, (_, k) => pedigree.indexOf(`c${k}`)),
      traits: [{ name: 'gain', values: Float64Array.from(gains) }],
      fixed: [lines, ages],
    });
    const other = reml(new Equations(animal.model));
    const [sire, residual] = result.values;
    expect(other.values[0]! / (4 * sire!)).toBeCloseTo(1, 4);
    expect(other.values[1]! / (residual! - 3 * sire!)).toBeCloseTo(1, 4);
    expect(other.logLikelihood).toBeCloseTo(result.logLikelihood, 7);
  });
});

// Becker WA (1984) Manual of Quantitative Genetics, 4th ed., p. 83: 5 sires x 3 dams x 3 daughters. Read in the source (the documentation of an
// open data collection, R package agridat, quotes the book).
describe("Becker's chickens", () => {
  const weights = chickens.map(([, , y]) => y);
  const nested = reml(
    model(weights, [
      term(
        'sire',
        chickens.map(([sire]) => sire),
      ),
      term(
        'dam',
        chickens.map(([, dam]) => dam),
      ),
    ]),
  );
  it('sires and dams within sires', () => {
    expectPrinted(nested.values, [776.8, 1095.6, 5524.4], 1, 1);
    expectPrinted(errorsOf(nested), [1316.5, 1396.9, 1426.4], 1, 1);
    expectPrinted(fixedErrors(nested), [18.7], 1, 1);
    const total = nested.values.reduce((sum, value) => sum + value, 0);
    expectPrinted(
      [0, 1].map((k) => (4 * nested.values[k]!) / total),
      [0.42, 0.59],
      2,
      1,
    );
  });

  it('as an animal model with the brood of a dam in common', () => {
    const pedigree = explicitPedigree(
      chickens.map(([sire, dam], k): PedigreeRow => [`d${k}`, sire, dam]),
    );
    const animal = animalModel({
      pedigree,
      fish: Int32Array.from(weights, (_, k) => pedigree.indexOf(`d${k}`)),
      traits: [{ name: 'weight', values: Float64Array.from(weights) }],
      shared: [{ name: 'dam', ...levelsOf(chickens.map(([, dam]) => dam)) }],
    });
    const result = reml(new Equations(animal.model));
    // Very flat: standard errors exceed the estimates.
    const printed = [3107.02, 318.88, 3970.89];
    printed.forEach((value, k) => expect(result.values[k]! / value).toBeCloseTo(1, 4));
    [5265.881, 2198.789, 2994.491].forEach((value, k) =>
      expect(errorsOf(result)[k]! / value).toBeCloseTo(1, 4),
    );
    expectPrinted([-2 * result.logLikelihood], [516.6906], 4, 1);
    expectPrinted([fixedOf(result)[0]!], [808.4667], 4, 1);
  });
});

// Mrode RA (2005) Linear Models, 2nd ed., section 11.6. Read in the source. The print stopped before the top: compared to 0.003.
describe('five beef calves', () => {
  it('gives the variances of the top', () => {
    const pedigree = explicitPedigree([
      [1, null, null],
      [2, null, null],
      [3, null, null],
      [4, 1, null],
      [5, 3, 2],
      [6, 1, 2],
      [7, 4, 5],
      [8, 3, 6],
    ]);
    const animal = animalModel({
      pedigree,
      fish: Int32Array.from([4, 5, 6, 7, 8], (id) => pedigree.indexOf(String(id))),
      traits: [{ name: 'y', values: Float64Array.of(2.6, 0.1, 1, 3, 1) }],
      fixed: [classes('sex', ['M', 'F', 'F', 'M', 'M'])],
    });
    const result = reml(new Equations(animal.model));
    expectPrinted(result.values, [0.549, 0.485], 3, 3);
    expectPrinted(result.values, [0.5514, 0.4835], 4, 1);
  });
});

// Belenky G et al. (2003) J Sleep Res 12:1-12; printed in Bates D et al. (2015), section 5.2. Estimates from memory, confirmed in R (lme4).
describe('sleep: intercepts and slopes, correlated', () => {
  it('gives the printed variances and correlation', () => {
    const { levels, codes } = levelsOf(sleep.map(([subject]) => subject));
    const days = Float64Array.from(sleep, ([, day]) => day);
    const subject: RandomTerm = {
      name: 'subject',
      levels: levels.length,
      slots: [
        { trait: 0, level: codes },
        { trait: 0, level: codes, coefficient: days },
      ],
    };
    const result = reml(
      model(
        sleep.map(([, , y]) => y),
        [subject],
        [{ kind: 'covariate', name: 'days', values: days }],
      ),
    );
    const [intercept, covariance, slope, residual] = result.values;
    expectPrinted([intercept!], [612.1], 1, 1);
    expectPrinted([slope!, residual!], [35.07, 654.94], 2, 1);
    expectPrinted([covariance! / Math.sqrt(intercept! * slope!)], [0.066], 3, 1);
    expectPrinted([-2 * result.logLikelihood], [1743.628], 3, 1);
    expectPrinted(fixedOf(result), [251.405, 10.467], 3, 1);
  });
});
