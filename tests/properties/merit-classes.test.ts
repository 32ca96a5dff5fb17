import {
  animalModel,
  asNumbers,
  breedingValues,
  classesOverHeritability,
  Equations,
  MeritError,
  partWays,
  solveAt,
  solveByWork,
  solveThreshold,
  valuesAtHeritability,
  valuesOverHeritability,
  variancesAtHeritabilities,
  type AnimalScores,
  type ClassScores,
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
      const { equations, logMarginal, solution } = solveThreshold({
        scores: scores.scores,
        classes,
        fixed: [],
        random: model.random,
        variances: [h / (1 - h)],
      });
      return {
        h,
        weight: Math.exp(logMarginal),
        value: Math.sqrt(1 - h) * solution[equations.firstOfTerm[0]! + 7]!,
      };
    });
    const total = points.reduce((sum, { weight }) => sum + weight, 0);
    const mean = (of: (point: (typeof points)[number]) => number) =>
      points.reduce((sum, point) => sum + (point.weight / total) * of(point), 0);
    expect(posterior.heritability.mean).toBeCloseTo(
      mean(({ h }) => h),
      8,
    );
    expect(posterior.value[7]!).toBeCloseTo(
      mean(({ value }) => value),
      8,
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
