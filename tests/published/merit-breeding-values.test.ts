/**
 * Breeding values by the mixed-model equations.
 *
 * Mrode RA (2014) Linear Models for the Prediction of Animal Breeding Values, 3rd ed., CABI: Examples 3.1, 4.1, 5.1, 7.1, 12.2 and
 * 1.1 to 1.5; Lynch M & Walsh B (1998) Genetics and Analysis of Quantitative Traits, chapter 26, Examples 1 to 5. Basis: read in the
 * source unless said otherwise.
 */
import {
  animalModel,
  breedingValues,
  Equations,
  Fit,
  groupsOfFounders,
  groupShares,
  solveAt,
  solveAtRatios,
  type AnimalScores,
  type MixedModel,
  type SolvedModel,
} from '@linewright/merit';
import { relationshipInverse } from '@linewright/kinship';
import { describe, expect, it } from 'vitest';
import { explicitPedigree, inverseOf, type PedigreeRow } from './explicit-pedigree.js';
import { classes, expectPrinted, levelsOf } from './scores-of-rows.js';

const calves: PedigreeRow[] = [
  [1, null, null],
  [2, null, null],
  [3, null, null],
  [4, 1, null],
  [5, 3, 2],
  [6, 1, 2],
  [7, 4, 5],
  [8, 3, 6],
];
const calfIds = [1, 2, 3, 4, 5, 6, 7, 8];

function scoresOf(
  rows: readonly PedigreeRow[],
  fish: readonly (number | string)[],
  traits: Record<string, readonly number[]>,
  more: Partial<AnimalScores> = {},
): AnimalScores {
  const pedigree = explicitPedigree(rows);
  return {
    pedigree,
    fish: Int32Array.from(fish, (id) => pedigree.indexOf(String(id))),
    traits: Object.entries(traits).map(([name, values]) => ({
      name,
      values: Float64Array.from(values),
    })),
    ...more,
  };
}

const inOrder = (
  { animal: { pedigree } }: SolvedModel,
  values: Float64Array,
  ids: readonly (number | string)[],
): number[] => ids.map((id) => values[pedigree.indexOf(String(id))]!);

function fixedOf({ equations, solution }: SolvedModel, column: string, trait = 0): number[] {
  return equations.design.equations.flatMap((equation, k) =>
    equation.column === column && equation.trait === trait ? [solution[k]!] : [],
  );
}

describe('Mrode, Example 3.1: weaning gain of five calves', () => {
  const animal = animalModel(
    scoresOf(
      calves,
      [4, 5, 6, 7, 8],
      { gain: [4.5, 2.9, 3.9, 3.5, 5] },
      {
        fixed: [classes('sex', ['M', 'F', 'F', 'M', 'M'])],
      },
    ),
  );
  const equations = new Equations(animal.model);
  const solved = solveAt(animal, equations, { random: [[[20]]], residual: [[40]] });
  const [gain] = breedingValues(solved);

  it('gives the printed values; the male mean is printed cut off', () => {
    expectPrinted(fixedOf(solved, 'sex'), [4.358, 3.404], 3, 1);
    const printed = [0.098, -0.019, -0.041, -0.009, -0.186, 0.177, -0.249, 0.183];
    expectPrinted(inOrder(solved, gain!.value, calfIds), printed, 3);
  });

  it('gives the printed errors and reliabilities, which were made from a rounded diagonal', () => {
    const sep = [4.341, 4.436, 4.271, 4.138, 4.138, 4.205, 4.205, 4.109];
    const diagonal = inOrder(solved, gain!.standardError, calfIds).map((se) =>
      Number((se ** 2 / 40).toFixed(3)),
    );
    expectPrinted(diagonal, [0.471, 0.492, 0.456, 0.428, 0.428, 0.442, 0.442, 0.422], 3);
    expectPrinted(
      diagonal.map((d) => Math.sqrt(40 * d)),
      sep,
      3,
    );
    expectPrinted(
      diagonal.map((d) => 1 - 2 * d),
      [0.058, 0.016, 0.088, 0.144, 0.144, 0.116, 0.116, 0.156],
      3,
    );
    const accuracy = inOrder(solved, gain!.accuracy, calfIds);
    accuracy.forEach((r, k) => expect(r ** 2).toBeCloseTo(1 - diagonal[k]! * 2, 2));
  });

  it('gives the same values at the given ratio, the scale being estimated', () => {
    const scaled = solveAtRatios(animal, equations, [0.5]);
    expect([...scaled.solution].map((v) => v.toFixed(9))).toEqual(
      [...solved.solution].map((v) => v.toFixed(9)),
    );
    // By hand on the residuals: y'Py / (5 - 2).
    const fit = new Fit(equations, scaled.variances);
    expect(fit.quadratic).toBeCloseTo(3, 9);
    expect(fit.logLikelihood).toBeCloseTo(scaled.logLikelihood, 9);
  });
});

describe('Mrode, Example 4.1: repeated records of cows', () => {
  it('gives the printed animal and permanent effects', () => {
    const rows: PedigreeRow[] = [
      [1, null, null],
      [2, null, null],
      [3, null, null],
      [4, 1, 2],
      [5, 3, 2],
      [6, 1, 5],
      [7, 3, 4],
      [8, 1, 7],
    ];
    const cows = [4, 4, 5, 5, 6, 6, 7, 7, 8, 8];
    const fat = [201, 280, 150, 200, 160, 190, 180, 250, 285, 300];
    const animal = animalModel(
      scoresOf(
        rows,
        cows,
        { fat },
        {
          permanent: true,
          fixed: [
            classes('parity', [1, 2, 1, 2, 1, 2, 1, 2, 1, 2]),
            {
              kind: 'classes',
              name: 'HYS',
              levels: ['1', '2', '3', '4'],
              codes: Int32Array.of(0, 2, 0, 3, 1, 2, 0, 2, 1, 3),
            },
          ],
        },
      ),
    );
    const equations = new Equations(animal.model);
    const solved = solveAt(animal, equations, { random: [[[20]], [[12]]], residual: [[28]] });
    expect(equations.design.dropped.map(({ level }) => level)).toEqual(['1', '3']);
    expectPrinted(fixedOf(solved, 'HYS'), [44.065, 0.013], 3);
    expectPrinted(fixedOf(solved, 'parity'), [175.472, 241.893], 3);
    const [values] = breedingValues(solved);
    const printed = [10.148, -3.084, -7.063, 13.581, -18.207, -18.387, 9.328, 24.194];
    expectPrinted(inOrder(solved, values!.value, calfIds), printed, 3);
    // The value of cow 6, -17.22850, stands on a tie of rounding.
    const permanent = equations.termEquation[1]!;
    expectPrinted(
      Array.from(permanent, (equation) => solved.solution[equation]!),
      [8.417, -7.146, -17.229, -1.39, 17.347],
      3,
      0.51,
    );
  });
});

describe('Mrode, Example 5.1: two traits', () => {
  const animal = animalModel(
    scoresOf(
      calves,
      [4, 5, 6, 7, 8],
      { WWG: [4.5, 2.9, 3.9, 3.5, 5], PWG: [6.8, 5, 6.8, 6, 7.5] },
      { fixed: [classes('sex', ['M', 'F', 'F', 'M', 'M'])] },
    ),
  );
  const g = [
    [20, 18],
    [18, 40],
  ];
  const solved = solveAt(animal, new Equations(animal.model), {
    random: [g],
    residual: [
      [40, 11],
      [11, 30],
    ],
  });
  const values = breedingValues(solved);
  it('gives the printed sexes and breeding values', () => {
    expectPrinted(fixedOf(solved, 'sex', 0), [4.361, 3.397], 3);
    expectPrinted(fixedOf(solved, 'sex', 1), [6.8, 5.88], 3);
    const printed = [
      [0.151, -0.015, -0.078, -0.01, -0.27, 0.276, -0.316, 0.244],
      [0.28, -0.008, -0.17, -0.013, -0.478, 0.517, -0.479, 0.392],
    ];
    printed.forEach((row, t) =>
      expectPrinted(inOrder(solved, values[t]!.value, calfIds), row, 3, 1),
    );
  });
  it('gives the printed reliabilities and error variances', () => {
    const reliability = [
      [0.07, 0.02, 0.105, 0.175, 0.173, 0.142, 0.144, 0.186],
      [0.102, 0.031, 0.155, 0.257, 0.253, 0.212, 0.216, 0.271],
    ];
    const pev = [
      [18.61, 19.6, 17.89, 16.51, 16.54, 17.15, 17.12, 16.29],
      [35.9, 38.77, 33.8, 29.73, 29.87, 31.5, 31.36, 29.16],
    ];
    [0, 1].forEach((t) => {
      const accuracy = inOrder(solved, values[t]!.accuracy, calfIds).map((r) => r ** 2);
      expectPrinted(accuracy, reliability[t]!, 3, 1);
      const error = inOrder(solved, values[t]!.standardError, calfIds).map((se) => se ** 2);
      expectPrinted(error, pev[t]!, 2, 1);
    });
  });
});

// Quaas RL (1988) J Dairy Sci 71:1338-1345 and Westell RA, Quaas RL & Van Vleck LD (1988) J Dairy Sci 71:1310-1318 (method). The ten
// fish were made up; values computed independently by group equations and by regression on the shares of the lines.
describe('two founder lines crossed', () => {
  const rows: PedigreeRow[] = [
    ['a', null, null],
    ['b', null, null],
    ['c', null, null],
    ['d', null, null],
    ['e', 'a', 'b'],
    ['f', 'c', 'd'],
    ['g', 'a', 'c'],
    ['h', 'e', 'f'],
    ['i', 'g', 'f'],
    ['j', 'h', 'i'],
  ];
  const ids = rows.map(([id]) => id);
  const scores = [52, 48, 61, 66, 51, 63, 55, 60, 58, 57];
  const plain = scoresOf(rows, ids, { score: scores });
  const lineOf = plain.pedigree.ids.map((id) =>
    ['a', 'b'].includes(id) ? 0 : ['c', 'd'].includes(id) ? 1 : -1,
  );
  const groups = groupsOfFounders(plain.pedigree, ['L1', 'L2'], Int32Array.from(lineOf));
  const animal = animalModel({ ...plain, groups });
  const equations = new Equations(animal.model);
  const solved = solveAt(animal, equations, { random: [[[1]]], residual: [[1.5]] });

  it('gives the mean, the difference of the lines and the values, which hold the line', () => {
    expectPrinted(fixedOf(solved, 'mean'), [50.241855], 6, 1);
    expect(equations.termEquation[0]![10]).toBe(-1);
    expectPrinted([solved.solution[equations.termEquation[0]![11]!]!], [12.88582], 6, 1);
    const [values] = breedingValues(solved);
    const printed = [
      ...[0.63697, -0.63697, 11.722791, 14.04885, 0.432952],
      ...[12.90932, 5.636449, 7.320245, 8.771556, 7.739292],
    ];
    expectPrinted(inOrder(solved, values!.value, ids), printed, 6, 1);
  });

  it('gives the shares of the second line', () => {
    const shares = groupShares(plain.pedigree, groups);
    const second = ids.map((id) => shares[plain.pedigree.indexOf(String(id)) * 2 + 1]!);
    expect(second).toEqual([0, 0, 1, 1, 0, 1, 0.5, 0.5, 0.75, 0.625]);
  });
});

describe('Lynch & Walsh, chapter 26, Examples 1 to 5: a sire model', () => {
  it('gives the printed fractions of solutions and inverse', () => {
    const model: MixedModel = {
      rows: 6,
      traits: [{ name: 'y', values: Float64Array.of(9, 12, 11, 6, 7, 14) }],
      fixed: [classes('environment', [1, 2, 1, 1, 1, 2])],
      random: [
        {
          name: 'sire',
          levels: 3,
          slots: [{ trait: 0, level: levelsOf([1, 1, 2, 2, 3, 3]).codes }],
        },
      ],
    };
    const fit = new Fit(new Equations(model), { random: [[[2]]], residual: [[6]] });
    expectPrinted(
      fit.solution.map((v) => 18 * v),
      [148, 235, -1, 2, -1],
      6,
    );
    // 270 times the inverse of the equations times the residual variance; printed in units of 1/6.
    const diagonal = fit.errorVariances().map((v) => (270 * v) / 6);
    expectPrinted(diagonal, [100, 175, 67, 70, 67], 6);
  });
});

describe('Mrode, Example 7.1: direct and maternal effects with a covariance', () => {
  const rows: PedigreeRow[] = [
    [1, null, null],
    [2, null, null],
    [3, null, null],
    [4, null, null],
    [5, 1, 2],
    [6, 3, 2],
    [7, 4, 6],
    [8, 3, 5],
    [9, 1, 6],
    [10, 3, 2],
    [11, 3, 7],
    [12, 8, 7],
    [13, 9, 2],
    [14, 3, 6],
  ];
  const pedigree = explicitPedigree(rows);
  const index = (id: string | number) => pedigree.indexOf(String(id));
  const young = [5, 6, 7, 8, 9, 10, 11, 12, 13, 14];
  const weight = [35, 20, 25, 40, 42, 22, 35, 34, 20, 40];
  const dams = young.map((id) => rows[id - 1]![2]!);
  const model: MixedModel = {
    rows: 10,
    traits: [{ name: 'weight', values: Float64Array.from(weight) }],
    fixed: [
      classes('herd', [1, 1, 1, 1, 2, 2, 2, 3, 3, 3]),
      classes('pen', [1, 2, 2, 1, 1, 2, 2, 2, 1, 2]),
    ],
    random: [
      {
        name: 'direct and maternal',
        levels: 14,
        slots: [
          { trait: 0, level: Int32Array.from(young, index) },
          { trait: 0, level: Int32Array.from(dams, index) },
        ],
        inverse: { ...relationshipInverse(pedigree), logDeterminant: 0 },
      },
      { name: 'dam', levels: 4, slots: [{ trait: 0, level: levelsOf(dams).codes }] },
    ],
  };
  const equations = new Equations(model);
  const fit = new Fit(equations, {
    random: [
      [
        [150, -40],
        [-40, 90],
      ],
      [[40]],
    ],
    residual: [[350]],
  });
  const effect = (slot: number) =>
    Array.from(
      { length: 14 },
      (_, k) => fit.solution[equations.termEquation[0]![2 * index(k + 1) + slot]!]!,
    );

  // Animals 1 to 6 and the pens read in the source (2 and 3 from an iteration that had not quite converged); the others computed
  // independently.
  it('gives direct, maternal and lasting effects and the difference of the pens', () => {
    const at = equations.design.equations.findIndex(({ column }) => column === 'pen');
    expectPrinted([-fit.solution[at]!], [6.849], 3, 2);
    const direct = [
      ...[0.564, -1.246, 1.166, -0.484, 0.63, -0.859, -1.156],
      ...[1.917, -0.553, -1.055, 0.385, 0.863, -2.98, 1.751],
    ];
    expectPrinted(effect(0), direct, 3, 2);
    const maternal = [
      ...[0.262, -1.583, 0.736, 0.586, -0.507, 0.841, 1.299],
      ...[-0.158, 0.66, -0.153, 0.916, 0.442, 0.093, 0.362],
    ];
    expectPrinted(effect(1), maternal, 3, 2);
    const lasting = levelsOf(dams).levels.map((dam, k) => [
      Number(dam),
      fit.solution[equations.termEquation[1]![k]!]!,
    ]);
    const sorted = lasting.sort(([a], [b]) => a! - b!).map(([, value]) => value!);
    expectPrinted(sorted, [-1.701, 0.415, 0.825, 0.461], 3, 2);
  });
});

describe('Mrode, Example 12.2: additive and dominance effects', () => {
  it('gives the printed totals', () => {
    const rows: PedigreeRow[] = [
      [1, null, null],
      [2, null, null],
      [3, null, null],
      [4, null, null],
      [5, 1, 2],
      [6, 3, 4],
      [7, 6, 5],
      [8, null, 5],
      [9, 3, 8],
      [10, 3, 8],
      [11, 6, 8],
      [12, 6, 8],
    ];
    const pedigree = explicitPedigree(rows);
    const a = inverseOf(denseInverse(pedigree));
    // Dominance relationship of non-inbred fish (Cockerham 1954): d = (a_ss a_dd + a_sd a_ds) / 4.
    const of = (i: number, j: number): number => (i < 0 || j < 0 ? 0 : a[i]![j]!);
    const d = a.map((_, i) =>
      a.map((__, j) => {
        if (i === j) return 1;
        const [s, t] = [pedigree.sire[i]!, pedigree.dam[i]!];
        const [u, v] = [pedigree.sire[j]!, pedigree.dam[j]!];
        return (of(s, u) * of(t, v) + of(s, v) * of(t, u)) / 4;
      }),
    );
    const dense = inverseOf(d);
    const pigs = [5, 6, 7, 8, 9, 10, 11, 12].map((id) => pedigree.indexOf(String(id)));
    const level = Int32Array.from(pigs);
    const cells = dense.flatMap((row, i) => row.map((value, j) => ({ i, j, value })));
    const model: MixedModel = {
      rows: 8,
      traits: [{ name: 'weight', values: Float64Array.of(17, 20, 18, 13.5, 20, 15, 25, 19.5) }],
      fixed: [classes('sex', ['F', 'F', 'F', 'F', 'M', 'M', 'M', 'M'])],
      random: [
        {
          name: 'additive',
          levels: 12,
          slots: [{ trait: 0, level }],
          inverse: { ...relationshipInverse(pedigree), logDeterminant: 0 },
        },
        {
          name: 'dominance',
          levels: 12,
          slots: [{ trait: 0, level }],
          inverse: {
            rows: Int32Array.from(cells, ({ i }) => i),
            columns: Int32Array.from(cells, ({ j }) => j),
            values: Float64Array.from(cells, ({ value }) => value),
            logDeterminant: 0,
          },
        },
      ],
    };
    const equations = new Equations(model);
    const fit = new Fit(equations, { random: [[[90]], [[80]]], residual: [[120]] });
    expectPrinted(fit.solution.slice(0, 2), [16.98, 20.03], 2);
    const total = Array.from({ length: 12 }, (_, k) => {
      const i = pedigree.indexOf(String(k + 1));
      const [add, dom] = equations.termEquation.map((at) => fit.solution[at[i]!]!);
      return add! + dom!;
    });
    const printed = [
      ...[-0.16, -0.16, 0.059, 0.819, -0.184, 1.963],
      ...[0.792, -1.991, -0.349, -2.683, 2.489, -0.078],
    ];
    expectPrinted(total, printed, 3, 1);
  });

  function denseInverse(pedigree: ReturnType<typeof explicitPedigree>): number[][] {
    const { size, rows, columns, values } = relationshipInverse(pedigree);
    const matrix = Array.from({ length: size }, () => new Array<number>(size).fill(0));
    rows.forEach((row, k) => (matrix[row]![columns[k]!] = values[k]!));
    return matrix;
  }
});

// Each is a selection index with a known mean, which the same equations give.
describe('Mrode, Examples 1.1 to 1.5: selection indices', () => {
  const alone: PedigreeRow[] = [['x', null, null]];
  const known = { mean: 'known' as const };
  const valueOf = (solved: SolvedModel, id: string, trait = 0) => {
    const values = breedingValues(solved)[trait]!;
    const at = solved.animal.pedigree.indexOf(id);
    return [values.value[at]!, values.accuracy[at]!] as const;
  };

  it('1.1 (from memory): own record 70 above the herd, h2 0.45', () => {
    const animal = animalModel(scoresOf(alone, ['x'], { gain: [70] }, known));
    const solved = solveAt(animal, new Equations(animal.model), {
      random: [[[0.45]]],
      residual: [[0.55]],
    });
    const [value, accuracy] = valueOf(solved, 'x');
    expectPrinted([value, accuracy], [31.5, 0.67], 2);
  });

  it('1.2: mean of two records', () => {
    const scores = scoresOf(
      alone,
      ['x', 'x'],
      { milk: [1900, 2100] },
      { ...known, permanent: true },
    );
    const animal = animalModel(scores);
    const solved = solveAt(animal, new Equations(animal.model), {
      random: [[[0.3]], [[0.2]]],
      residual: [[0.5]],
    });
    const [value, accuracy] = valueOf(solved, 'x');
    expectPrinted([value / 2000, value, accuracy], [0.4, 800, 0.632], 3);
  });

  it('1.4: mean of the parents', () => {
    // A record that gives each parent the accuracy and the value of the example.
    const accuracy = [0.97, 0.77];
    const scores = scoresOf(
      [
        ['s', null, null],
        ['d', null, null],
        ['x', 's', 'd'],
      ],
      ['s', 'd'],
      { yield: [180 / 0.97 ** 2, 70 / 0.77 ** 2] },
      { ...known, weights: Float64Array.from(accuracy, (r) => r ** 2 / (1 - r ** 2)) },
    );
    const animal = animalModel(scores);
    const solved = solveAt(animal, new Equations(animal.model), {
      random: [[[1]]],
      residual: [[1]],
    });
    expectPrinted([...valueOf(solved, 's'), ...valueOf(solved, 'd')], [180, 0.97, 70, 0.77], 2);
    expectPrinted(valueOf(solved, 'x'), [125, 0.62], 2);
  });

  it('1.5: a correlated trait', () => {
    const animal = animalModel(scoresOf(alone, ['x'], { growth: [945 - 887], lean: [NaN] }, known));
    const [g, l] = [0.43 * 80 ** 2, 0.45 * 32 ** 2];
    const between = 0.95 * Math.sqrt(g * l);
    const solved = solveAt(animal, new Equations(animal.model), {
      random: [
        [
          [g, between],
          [between, l],
        ],
      ],
      residual: [
        [0.57 * 80 ** 2, 0],
        [0, 0.55 * 32 ** 2],
      ],
    });
    const [value, accuracy] = valueOf(solved, 'x', 1);
    // The print multiplied by the weight rounded to 0.167, which gives 9.686.
    expectPrinted([value / 58, accuracy], [0.167, 0.623], 3);
    expect(value).toBeCloseTo(9.695, 3);
  });
});
