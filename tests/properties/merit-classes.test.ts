import {
  animalModel,
  asNumbers,
  breedingValues,
  classesOverHeritability,
  Equations,
  MeritError,
  MomentsSolver,
  moreClasses,
  partWays,
  solveAt,
  solveByWork,
  solveThreshold,
  valuesAtHeritability,
  valuesOverHeritability,
  variancesAtHeritabilities,
  type AnimalScores,
  type ClassScores,
  type OneScore,
  type ThresholdModel,
} from '@linewright/merit';
import { describe, expect, it } from 'vitest';
import { Chance, tangledPedigree } from './simulated-line.js';

const seed = 20_261_132;

/** Classes of a liability that is half inherited, as good as that of unrelated founders and their young. */
function classScores(chance: Chance, classes: number, size = 80): ClassScores {
  const pedigree = tangledPedigree(size, 10, chance);
  const value = new Float64Array(size);
  const scores = Int32Array.from({ length: size }, (_, i) => {
    const of = (parent: number) => (parent < 0 ? 0 : value[parent]! / 2);
    value[i] = of(pedigree.sire[i]!) + of(pedigree.dam[i]!) + Math.SQRT1_2 * chance.normal();
    const liability = value[i]! + Math.SQRT1_2 * chance.normal();
    return Math.max(0, Math.min(classes - 1, Math.floor(liability + classes / 2)));
  });
  return {
    pedigree,
    fish: Int32Array.from({ length: size }, (_, i) => i),
    trait: 'fin',
    scores,
    classes,
  };
}

describe(`ordered traits over all heritabilities, seed ${seed}`, () => {
  it.each([2, 3])('are the mixture worked point by point, %i classes', (classes) => {
    const scores = classScores(new Chance(seed + classes), classes);
    const posterior = classesOverHeritability(scores, { cells: 5 });
    const { model } = animalModel(asNumbers(scores));
    const points = [0.1, 0.3, 0.5, 0.7, 0.9].map((h) => {
      const solver = new MomentsSolver({
        scores: scores.scores,
        classes,
        fixed: [],
        random: model.random,
      });
      const { equations, logMarginal, mean } = solver.at([h / (1 - h)]);
      return {
        h,
        // Thresholds are flat before in standard deviations of the liability.
        weight: Math.exp(logMarginal) * (1 - h) ** ((classes - 1) / 2),
        value: Math.sqrt(1 - h) * mean[equations.firstOfTerm[0]! + 7]!,
      };
    });
    const total = points.reduce((sum, { weight }) => sum + weight, 0);
    const mean = (of: (point: (typeof points)[number]) => number) =>
      points.reduce((sum, point) => sum + (point.weight / total) * of(point), 0);
    // Sweeps settle to a ten thousandth of a standard deviation, wherever they begin.
    expect(posterior.heritability.mean).toBeCloseTo(
      mean(({ h }) => h),
      5,
    );
    expect(posterior.value[7]!).toBeCloseTo(
      mean(({ value }) => value),
      5,
    );
    const band = posterior.band(7, 0.8);
    expect(band.low).toBeLessThan(posterior.value[7]!);
    expect(band.high).toBeGreaterThan(posterior.value[7]!);
    // Both ways see much the same; where they do not is told fish by fish.
    const linear = valuesOverHeritability(asNumbers(scores), { cells: 5 });
    const found = partWays(posterior.value, linear.value, [...scores.fish]);
    expect(found.rankCorrelation).toBeGreaterThan(0.9);
    expect(found.rankCorrelation).toBeLessThanOrEqual(1);
    expect(found.notes).toHaveLength(found.bestDiffer.length > 0 ? 1 : 0);
  });

  it('stop when told, and refuse a class that nobody showed', () => {
    const scores = classScores(new Chance(seed), 2);
    const stopped = () => classesOverHeritability(scores, { onPoint: (done) => done < 3 });
    expect(stopped).toThrow('stopped');
    expect(() => classesOverHeritability({ ...scores, classes: 3 })).toThrow(MeritError);
  });
});

describe('where two ways part', () => {
  it('is told by fish, ties at their mean rank', () => {
    const found = partWays([9, 8, 7, 6, 5], [9, 6, 7, 8, 5], [0, 1, 2, 3], 2);
    expect(found.differ).toEqual([
      { fish: 1, first: 2, second: 4 },
      { fish: 3, first: 4, second: 2 },
    ]);
    expect(found.bestDiffer).toHaveLength(2);
    // 1 - 6 * 8 / (4 * 15).
    expect(found.rankCorrelation).toBeCloseTo(0.2, 12);
    expect(found.notes[0]!.code).toBe('MERIT_ORDERS_DIFFER');
    const tied = partWays([1, 1, 0], [2, 1, 0], [0, 1, 2], 1);
    expect(tied.differ.map(({ first }) => first)).toEqual([1.5, 1.5]);
    const same = partWays([3, 2, 1], [30, 20, 10], [0, 1, 2]);
    expect(same).toMatchObject({ rankCorrelation: 1, differ: [], bestDiffer: [], notes: [] });
    expect(() => partWays([1], [1], [0])).toThrow('two fish');
  });
});

describe('several traits at given heritabilities', () => {
  function twoTraits(chance: Chance, gap = 0.2): AnimalScores {
    const size = 120;
    const common = Float64Array.from({ length: size }, () => chance.normal());
    return {
      pedigree: tangledPedigree(size, 12, chance),
      fish: Int32Array.from({ length: size }, (_, i) => i),
      traits: [2, 5].map((scale, t) => ({
        name: `t${t}`,
        values: common.map((c) =>
          chance.next() < gap ? NaN : 10 + scale * (0.6 * c + 0.8 * chance.normal()),
        ),
      })),
    };
  }

  it('are each trait’s own where nothing is correlated, and meet what is given', () => {
    const scores = twoTraits(new Chance(seed + 10));
    const { variances, notes } = variancesAtHeritabilities(scores, { heritabilities: [0.3, 0.5] });
    expect(notes).toEqual([]);
    scores.traits.forEach((trait, t) => {
      const h = [0.3, 0.5][t]!;
      const { solved } = valuesAtHeritability({ ...scores, traits: [trait] }, h);
      expect(variances.random[0]![t]![t]).toBeCloseTo(solved.variances.random[0]![0]![0]!, 8);
      expect(variances.residual[t]![t]).toBeCloseTo(solved.variances.residual[0]![0]!, 8);
    });
    expect(variances.random[0]![0]![1]).toBe(0);
    expect(variances.residual[0]![1]).toBeGreaterThan(0);
    const geneticCorrelations = [
      [1, 0.6],
      [0.6, 1],
    ];
    const given = variancesAtHeritabilities(scores, {
      heritabilities: [0.3, 0.5],
      geneticCorrelations,
    });
    const [g] = given.variances.random;
    expect(g![0]![1]! / Math.sqrt(g![0]![0]! * g![1]![1]!)).toBeCloseTo(0.6, 12);
    // What inheritance explains is not counted twice.
    expect(given.variances.residual[0]![1]!).toBeLessThan(variances.residual[0]![1]!);
    const animal = animalModel(scores);
    const { values, method } = solveByWork(animal, new Equations(animal.model), given);
    expect(method).toBe('factor');
    const dense = breedingValues(solveAt(animal, new Equations(animal.model), given.variances));
    expect(values[1]!.value).toEqual(dense[1]!.value);
  });

  it('say what was too few or did not fit, and refuse what cannot be', () => {
    const scores = twoTraits(new Chance(seed + 11));
    const apart = {
      ...scores,
      traits: scores.traits.map(({ name, values }, t) => ({
        name,
        values: values.map((value, i) => (i % 2 === t ? value : NaN)),
      })),
    };
    const none = variancesAtHeritabilities(apart, { heritabilities: [0.3, 0.5] });
    expect(none.notes.map(({ code }) => code)).toEqual(['MERIT_FEW_TOGETHER']);
    expect(none.variances.residual[0]![1]).toBe(0);
    const doubtful = variancesAtHeritabilities(scores, {
      heritabilities: [0.9, 0.9],
      geneticCorrelations: [
        [1, -0.9],
        [-0.9, 1],
      ],
    });
    expect(doubtful.notes.map(({ code }) => code)).toEqual(['MERIT_CORRELATION_DOUBTFUL']);
    const refused = (heritabilities: number[], geneticCorrelations?: number[][]) => () =>
      variancesAtHeritabilities(scores, {
        heritabilities,
        ...(geneticCorrelations && { geneticCorrelations }),
      });
    expect(refused([0.3])).toThrow('1 heritabilities are given for 2 traits');
    expect(refused([0, 0.5])).toThrow('must lie between 0 and 1');
    expect(refused([0.3, 0.5], [[1, 0.2]])).toThrow('table of traits by traits');
    const beyond = [
      [1, 1.2],
      [1.2, 1],
    ];
    expect(refused([0.3, 0.5], beyond)).toThrow('cannot go together');
    expect(() =>
      variancesAtHeritabilities({ ...scores, permanent: true }, { heritabilities: [0.3, 0.5] }),
    ).toThrow('only random effect');
  });
});

describe(`looks more at an ordered trait, seed ${seed}`, () => {
  /** The first rows of a model with a season, an age, broods and looks again. */
  const modelOf = (scores: ClassScores, rows: number, broods: number): ThresholdModel => {
    const chance = new Chance(seed + 7);
    const all = scores.fish.length;
    const season = Int32Array.from({ length: all }, () => chance.below(3));
    const age = Float64Array.from({ length: all }, () => chance.below(30) - 15);
    const { model } = animalModel(
      asNumbers({
        ...scores,
        fish: scores.fish.slice(0, rows),
        scores: scores.scores.slice(0, rows),
        fixed: [
          {
            kind: 'classes',
            name: 'season',
            levels: ['1', '2', '3'],
            codes: season.slice(0, rows),
          },
          { kind: 'covariate', name: 'age', values: age.slice(0, rows) },
        ],
        shared: [
          {
            name: 'brood',
            levels: Array.from({ length: broods }, (_, k) => String(k)),
            codes: Int32Array.from({ length: rows }, (_, row) => Math.floor(row / 8)),
          },
        ],
      }),
    );
    return {
      scores: scores.scores.slice(0, rows),
      classes: scores.classes,
      fixed: model.fixed,
      random: model.random,
      variances: [0.8, 0.3],
    };
  };
  const looks = ({ fixed, random, scores }: ThresholdModel, from: number): OneScore[] =>
    Array.from(scores.slice(from), (value, k) => {
      const row = from + k;
      const brood = Math.floor(row / 8);
      return {
        ...{ fish: random[0]!.slots[0]!.level[row]!, value },
        fixed: fixed.map((column) =>
          column.kind === 'classes' ? column.codes[row]! : column.values[row]!,
        ),
        shared: [brood < 9 ? brood : -1],
      };
    });

  it.each([2, 3, 5])('make the mode that they make from the beginning, %i classes', (classes) => {
    const scores = classScores(new Chance(seed + 40 + classes), classes);
    // Fish 72 is the first of its brood.
    const [before, after] = [modelOf(scores, 70, 9), modelOf(scores, 73, 10)];
    const solved = solveThreshold(before);
    const more = moreClasses(before, solved, looks(after, 70));
    const whole = solveThreshold(after);
    const first = whole.equations.firstOfTerm[0]!;
    const furthest = { value: 0, error: 0, moved: 0 };
    more.value.forEach((value, i) => {
      const error = Math.sqrt(whole.errorVariances[first + i]!);
      const was = solved.solution[solved.equations.firstOfTerm[0]! + i]!;
      const found = Math.sqrt(more.errorVariance[i]!);
      furthest.value = Math.max(furthest.value, Math.abs(value - whole.solution[first + i]!));
      furthest.moved = Math.max(furthest.moved, Math.abs(value - was) / error);
      furthest.error = Math.max(furthest.error, Math.abs(found / error - 1));
    });
    expect(furthest.value).toBeLessThan(1e-6);
    // Of the errors the bend of earlier rows is taken as it was.
    expect(furthest.error).toBeLessThan(0.02);
    expect(furthest.moved).toBeGreaterThan(0.1);
    expect(more.steps).toBeLessThan(15);
  });

  it('are refused where they make another model', () => {
    const scores = classScores(new Chance(seed + 50), 3);
    const before = modelOf(scores, 70, 9);
    const solved = solveThreshold(before);
    const one = looks(modelOf(scores, 71, 9), 70)[0]!;
    for (const change of [{ fish: 99 }, { fixed: [7, 0] }, { value: 5 }])
      expect(() => moreClasses(before, solved, [{ ...one, ...change }])).toThrow(MeritError);
  });
});
