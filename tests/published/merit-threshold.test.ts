/** Ordered classes: printed examples of cumulative models and of the threshold model with random effects. */
import {
  solveThreshold,
  type FixedColumn,
  type RandomTerm,
  type ThresholdModel,
  type ThresholdSolution,
} from '@linewright/merit';
import { describe, it } from 'vitest';
import { calvesOfSires, calvings, housing, wine } from './class-data.js';
import { classes, expectPrinted, levelsOf } from './scores-of-rows.js';

const effects = ({ equations, solution }: ThresholdSolution): number[] => [
  ...solution.slice(equations.classes - 1, equations.classes - 1 + equations.fixed.length),
];
const errors = ({ errorVariances }: ThresholdSolution, count: number): number[] =>
  [...errorVariances.slice(0, count)].map(Math.sqrt);

function ordinal(
  scores: readonly number[],
  fixed: readonly FixedColumn[],
  more: Partial<ThresholdModel> = {},
): ThresholdSolution {
  return solveThreshold({
    scores: Int32Array.from(scores),
    classes: Math.max(...scores) + 1,
    fixed,
    random: [],
    variances: [],
    ...more,
  });
}

// Madsen M (1976) Scand J Stat 3:97-106; Venables WN & Ripley BD (2002) Modern Applied Statistics with S, 4th ed., section 7.3. Data from the open
// data set (R package MASS); estimates from memory of the book, confirmed by independent maximisation.
describe('satisfaction of householders, logit', () => {
  it('gives the printed thresholds, effects, errors and deviance', () => {
    const order = ['Low', 'Medium', 'High'];
    const column = (name: string, at: 1 | 2 | 3, levels: string[]): FixedColumn => ({
      kind: 'classes',
      name,
      levels,
      codes: Int32Array.from(housing, (row) => levels.indexOf(row[at])),
    });
    const result = ordinal(
      housing.map(([satisfaction]) => order.indexOf(satisfaction)),
      [
        column('influence', 1, order),
        column('type', 2, ['Tower', 'Apartment', 'Atrium', 'Terrace']),
        column('contact', 3, ['Low', 'High']),
      ],
      { link: 'logit', counts: Float64Array.from(housing, ([, , , , count]) => count) },
    );
    expectPrinted(result.thresholds, [-0.4961, 0.6907], 3, 1);
    expectPrinted(effects(result), [0.5664, 1.2888, -0.5724, -0.3662, -1.091, 0.3603], 3, 1);
    const printed = [0.1047, 0.1272, 0.1192, 0.1552, 0.1515, 0.0955];
    expectPrinted(errors(result, 8).slice(2), printed, 3, 1);
    expectPrinted([-2 * result.logLikelihood], [3479.149], 3, 1);
  });
});

// Randall JH (1989) Biometrical J 31:781-793. Data read in the tutorial of the R package ordinal, table 1; estimates computed in R (ordinal),
// confirmed by independent maximisation.
describe('bitterness of wine', () => {
  const ratings = wine.map(([rating]) => rating - 1);
  const fixed: FixedColumn[] = [
    classes(
      'temperature',
      wine.map(([, temperature]) => temperature),
    ),
    classes(
      'contact',
      wine.map(([, , contact]) => contact),
    ),
  ];

  it('probit', () => {
    const result = ordinal(ratings, fixed);
    expectPrinted(result.thresholds, [-0.7733, 0.736, 2.0447, 2.9413], 4, 1.5);
    expectPrinted(effects(result), [1.4994, 0.8677], 4, 1.5);
    expectPrinted(errors(result, 6), [0.2829, 0.2499, 0.3218, 0.3873, 0.2918, 0.2669], 4, 1.5);
    expectPrinted([result.logLikelihood], [-85.7611], 4, 1.5);
  });

  it('logit', () => {
    const result = ordinal(ratings, fixed, { link: 'logit' });
    expectPrinted(result.thresholds, [-1.3444, 1.2508, 3.4669, 5.0064], 4, 1.5);
    expectPrinted(effects(result), [2.5031, 1.5278], 4, 1.5);
    expectPrinted([result.logLikelihood], [-86.4919], 4, 1.5);
  });

  // Method of Gianola D & Foulley JL (1983) Genet Sel Evol 15:201-224; the joint mode computed independently by direct maximisation.
  it('judges as a random effect of given variance', () => {
    const judge: RandomTerm = {
      name: 'judge',
      levels: 9,
      slots: [{ trait: 0, level: Int32Array.from(wine, ([, , , who]) => who - 1) }],
    };
    const result = ordinal(ratings, fixed, { random: [judge], variances: [0.6] });
    expectPrinted(result.thresholds, [-0.932, 0.8947, 2.4838, 3.5669], 4, 1);
    expectPrinted(effects(result), [1.8125, 1.0556], 4, 1);
    const judges = [1.0402, -0.4188, 0.677, -0.0164, 0.1888, 0.2625, -1.1971, -0.1667, -0.3695];
    expectPrinted(result.solution.slice(6), judges, 4, 1);
    const printed = [
      ...[0.4097, 0.3713, 0.4548, 0.5235, 0.3188, 0.2824],
      ...[0.4326, 0.4223, 0.4221, 0.4207, 0.4205, 0.4187, 0.441, 0.4205, 0.42],
    ];
    expectPrinted(errors(result, 15), printed, 4, 1);
  });
});

// Foulley JL & Gianola D (1996) Genet Sel Evol 28:249-273: 363,759 births. Data read in the source (open data collection, R package
// agridat); estimates computed in R (MASS), confirmed by independent maximisation. The plain additive model.
describe('calving scores by sex and age of dam', () => {
  it('gives thresholds and effects', () => {
    const ages = levelsOf(calvings.slice(0, 9).map(([, age]) => age)).levels;
    const result = ordinal(
      calvings.map(([, , score]) => Number(score[1]) - 1),
      [
        classes(
          'sex',
          calvings.map(([sex]) => sex),
        ),
        {
          kind: 'classes',
          name: 'age',
          levels: ages,
          codes: Int32Array.from(calvings, ([, age]) => ages.indexOf(age)),
        },
      ],
      { counts: Float64Array.from(calvings, ([, , , count]) => count) },
    );
    expectPrinted(result.thresholds, [0.355, 1.049], 3, 1);
    const printed = [-0.235, -0.721, -0.999, -1.156, -1.215, -1.285, -1.356, -1.396];
    expectPrinted(effects(result), [-0.439, ...printed], 3, 1);
  });
});

// Gianola & Foulley (1983), numerical example: 28 calves, 3 classes, 4 unrelated sires. Data from memory; the joint mode computed independently
// by direct maximisation, and as remembered from the print to three decimals.
describe('calves of four sires', () => {
  it('gives the joint mode', () => {
    const looks = calvesOfSires.flatMap(([herd, dam, sex, sire, ...counts]) =>
      counts.map((count, score) => ({ herd, dam, sex, sire, count, score })),
    );
    const result = ordinal(
      looks.map(({ score }) => score),
      [
        classes(
          'herd',
          looks.map(({ herd }) => herd),
        ),
        classes(
          'dam',
          looks.map(({ dam }) => dam),
        ),
        classes(
          'sex',
          looks.map(({ sex }) => sex),
        ),
      ],
      {
        counts: Float64Array.from(looks, ({ count }) => count),
        random: [
          {
            name: 'sire',
            levels: 4,
            slots: [{ trait: 0, level: Int32Array.from(looks, ({ sire }) => sire - 1) }],
          },
        ],
        variances: [1 / 19],
      },
    );
    expectPrinted(result.thresholds, [0.3755, 1.0115], 4, 1);
    expectPrinted(effects(result), [0.2975, -0.1269, -0.3906], 4, 1);
    expectPrinted(result.solution.slice(5), [-0.0815, 0.0655, 0.1228, -0.1067], 4, 1);
  });
});
