/**
 * The engine against a general-purpose statistics package, for models without a pedigree: lme4, nlme and MASS in R. Its figures, the data
 * (open data sets of these packages) and the versions stand in statistics-package/figures.json, made by the script beside it.
 */
import {
  Equations,
  fitLogitNormal,
  reml,
  type FixedColumn,
  type MixedModel,
  type RandomTerm,
  type RemlResult,
} from '@linewright/merit';
import { describe, expect, it } from 'vitest';
import { classes, levelsOf } from './scores-of-rows.js';
import figures from './statistics-package/figures.json' with { type: 'json' };

function term(name: string, labels: readonly string[], traits = 1): RandomTerm {
  const { levels, codes } = levelsOf(labels);
  return {
    name,
    levels: levels.length,
    slots: Array.from({ length: traits }, (_, trait) => ({ trait, level: codes })),
  };
}

const trait = (name: string, values: readonly number[]) => ({
  name,
  values: Float64Array.from(values),
});

const covariate = (name: string, values: readonly number[]): FixedColumn => ({
  kind: 'covariate',
  name,
  values: Float64Array.from(values),
});

const estimated = (model: Omit<MixedModel, 'rows'>): RemlResult =>
  reml(new Equations({ rows: model.traits[0]!.values.length, ...model }));

const solutions = ({ fit }: RemlResult, from: number, to: number): number[] => [
  ...fit.solution.slice(from, to),
];

const errors = ({ fit }: RemlResult, from: number, to: number): number[] =>
  [...fit.errorVariances().slice(from, to)].map(Math.sqrt);

/** Each within a share of the package's figure: both climb to the same top, and stop a little before it. */
function expectAlike(actual: ArrayLike<number>, given: readonly number[], share: number): void {
  expect(actual.length).toBe(given.length);
  given.forEach((figure, at) => {
    const distance = Math.abs(actual[at]! - figure) / Math.max(Math.abs(figure), 1e-3);
    expect(distance, `figure ${at}: ${actual[at]} for ${figure}`).toBeLessThan(share);
  });
}

describe('as a statistics package reckons', () => {
  it('machines: a random term within another, and what is expected of each worker', () => {
    const { rows, variances, logLikelihood, effects, workers } = figures.machines;
    const pairs = rows.worker.map((worker, at) => `${worker}:${rows.machine[at]}`);
    const found = estimated({
      traits: [trait('score', rows.score)],
      fixed: [classes('machine', rows.machine)],
      random: [term('worker and machine', pairs), term('worker', rows.worker)],
    });
    expectAlike(found.values, variances, 1e-4);
    expect(found.logLikelihood).toBeCloseTo(logLikelihood, 4);
    const [first, second, third] = effects.values;
    expectAlike(solutions(found, 0, 3), [first!, first! + second!, first! + third!], 1e-6);
    expect(errors(found, 0, 1)[0]).toBeCloseTo(effects.errors[0]!, 3);

    const known = levelsOf(rows.worker).levels.map((name) => workers.names.indexOf(name));
    const start = 3 + levelsOf(pairs).levels.length;
    const end = start + known.length;
    expectAlike(
      solutions(found, start, end),
      known.map((at) => workers.values[at]!),
      1e-3,
    );
  });

  it('growth of children: classes, a covariate, and looks repeated', () => {
    const { rows, variances, logLikelihood, effects } = figures.growth;
    const [female, male, slope, more] = effects.values;
    const boys = rows.sex.map((sex, at) => (sex === 'Male' ? rows.age[at]! : 0));
    const found = estimated({
      traits: [trait('distance', rows.distance)],
      fixed: [classes('sex', rows.sex), covariate('age', rows.age), covariate('age of boys', boys)],
      random: [term('child', rows.child)],
    });
    expectAlike(found.values, variances, 1e-4);
    expect(found.logLikelihood).toBeCloseTo(logLikelihood, 4);
    // The first level that is met stands first.
    const girls = levelsOf(rows.sex).levels.indexOf('Female');
    const levels = solutions(found, 0, 2);
    expectAlike([levels[girls]!, levels[1 - girls]!], [female!, female! + male!], 1e-6);
    expectAlike(solutions(found, 2, 4), [slope!, more!], 1e-6);
    expectAlike(errors(found, 2, 4), effects.errors.slice(2), 1e-4);
  });

  it('cattle of a herd: counts out of counts with a normal effect of each, by Laplace', () => {
    const { rows, deviation, logLikelihood, effects } = figures.herds;
    const found = fitLogitNormal({
      successes: rows.sick,
      totals: rows.size,
      columns: [1, 2, 3, 4].map((period) =>
        rows.period.map((own) => (period === 1 || own === period ? 1 : 0)),
      ),
    });
    expect(found.logLikelihood).toBeCloseTo(logLikelihood, 3);
    expect(found.spread).toBeCloseTo(deviation, 2);
    expectAlike(found.effects, effects.values, 5e-3);
    expectAlike(
      found.standardErrors.map((error) => error!),
      effects.errors,
      2e-2,
    );
  });

  it('pupils in classes: two traits at once, with a covariance between and within classes', () => {
    const { classes: names, language, iq, between, residual, means } = figures.schools;
    const found = estimated({
      traits: [trait('language', language), trait('iq', iq)],
      fixed: [],
      random: [term('class', names, 2)],
    });
    const { random, residual: within } = found.variances;
    const [classTerm] = random;
    expectAlike([classTerm![0]![0]!, classTerm![1]![1]!, classTerm![0]![1]!], between, 2e-3);
    expectAlike([within[0]![0]!, within[1]![1]!, within[0]![1]!], residual, 2e-3);
    expectAlike(solutions(found, 0, 2), means, 1e-5);
    expect(found.logLikelihood).toBeCloseTo(figures.schools.logLikelihood, 2);
  });
});
