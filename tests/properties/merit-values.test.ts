import { tabularRelationship } from '@linewright/kinship';
import {
  animalModel,
  breedingValues,
  Equations,
  Fit,
  groupsOfFounders,
  iterate,
  MeritError,
  reml,
  solveAt,
  type AnimalScores,
  type FixedColumn,
  type Variances,
} from '@linewright/merit';
import { describe, expect, it } from 'vitest';
import { solveDense, type DenseColumn } from './dense-mixed-model.js';
import { Chance, tangledPedigree } from './simulated-line.js';

const seed = 20_261_126;
const rowsOf = (values: Float64Array, size: number): number[][] =>
  Array.from({ length: size }, (_, i) => [...values.subarray(i * size, (i + 1) * size)]);
const unit = (size: number): number[][] =>
  Array.from({ length: size }, (_, i) => Array.from({ length: size }, (__, j) => +(i === j)));

/** Random scores with two fixed classes, a covariate, broods, repeated looks, weights and gaps. */
function randomScores(chance: Chance, traits: number, size = 24): AnimalScores {
  const pedigree = tangledPedigree(size, 4, chance);
  const rows = size + 6;
  const fish = Int32Array.from({ length: rows }, () => chance.below(size));
  const codes = (levels: number) =>
    Int32Array.from({ length: rows }, (_, k) => (k < levels ? k : chance.below(levels)));
  const names = (levels: number) => Array.from({ length: levels }, (_, k) => `${k}`);
  const covariate = Float64Array.from({ length: rows }, () => 100 + 10 * chance.normal());
  return {
    pedigree,
    fish,
    traits: Array.from({ length: traits }, (_, t) => ({
      name: `t${t}`,
      values: Float64Array.from({ length: rows }, (_, k) =>
        k > 6 && chance.below(5) === 0 ? NaN : 20 + 5 * chance.normal(),
      ),
    })),
    fixed: [
      { kind: 'classes', name: 'season', levels: names(3), codes: codes(3) },
      { kind: 'classes', name: 'sex', levels: names(2), codes: codes(2) },
      { kind: 'covariate', name: 'age', values: covariate },
    ],
    shared: [{ name: 'brood', levels: names(5), codes: codes(5) }],
    permanent: true,
    weights: Float64Array.from({ length: rows }, () => 1 + chance.below(3)),
  };
}

/** The columns that the design keeps, for the dense solver. */
function columnsOf({ design }: Equations, fixed: readonly FixedColumn[]): DenseColumn[] {
  return design.equations.map(({ trait, column, level }) => {
    const of = fixed.find(({ name }) => name === column);
    return {
      trait,
      value: (row) => {
        if (of === undefined) return 1;
        return of.kind === 'covariate' ? of.values[row]! : +(of.levels[of.codes[row]!] === level);
      },
    };
  });
}

function randomVariances(chance: Chance, terms: number, traits: number): Variances {
  const definite = (): number[][] => {
    const root = Array.from({ length: traits }, () =>
      Array.from({ length: traits }, () => chance.normal()),
    );
    return root.map((a, i) =>
      root.map((b, j) => a.reduce((sum, v, k) => sum + v * b[k]!, i === j ? 1 : 0)),
    );
  };
  return { random: Array.from({ length: terms }, definite), residual: definite() };
}

function relationships(scores: AnimalScores, equations: Equations): number[][][] {
  const a = rowsOf(tabularRelationship(scores.pedigree), scores.pedigree.size);
  return equations.model.random.map(({ levels }, term) => (term === 0 ? a : unit(levels)));
}

const closeTo = (actual: number, wanted: number): void =>
  expect(Math.abs(actual - wanted)).toBeLessThan(1e-7 * (1 + Math.abs(wanted)));

describe(`the equations against least squares on V, seed ${seed}`, () => {
  it.each(Array.from({ length: 24 }, (_, k) => [k, 1 + (k % 3)] as const))(
    'model %i of %i traits: effects, errors, accuracy and restricted likelihood',
    (k, traits) => {
      const chance = new Chance(seed + k);
      const scores = randomScores(chance, traits);
      const animal = animalModel(scores);
      const equations = new Equations(animal.model);
      const variances = randomVariances(chance, 3, traits);
      const solved = solveAt(animal, equations, variances);
      const dense = solveDense(
        animal.model,
        columnsOf(equations, scores.fixed!),
        relationships(scores, equations),
        variances,
      );
      closeTo(solved.logLikelihood, dense.logLikelihood);
      dense.fixed.forEach((value, at) => closeTo(solved.solution[at]!, value));
      dense.effects.forEach((effects, term) =>
        effects.forEach((value, at) => {
          const equation = equations.termEquation[term]![at]!;
          closeTo(solved.solution[equation]!, value);
          closeTo(solved.errorVariances[equation]!, dense.errors[term]![at]!);
        }),
      );
      breedingValues(solved).forEach(({ accuracy }, trait) =>
        accuracy.forEach((r, i) => {
          const base = variances.random[0]![trait]![trait]! * (1 + animal.inbreeding[i]!);
          closeTo(r ** 2, Math.max(0, 1 - dense.errors[0]![i * traits + trait]! / base));
        }),
      );
    },
  );

  it.each([1, 2, 3])(
    'are solved alike by iteration, %i traits, also from solutions that stood before',
    (traits) => {
      const chance = new Chance(seed + 60 + traits);
      const scores = randomScores(chance, traits);
      const animal = animalModel(scores);
      const equations = new Equations(animal.model);
      const variances = randomVariances(chance, 3, traits);
      const { solution } = solveAt(animal, equations, variances);
      const iterated = iterate(equations, variances, { tolerance: 1e-12 });
      iterated.solution.forEach((value, k) => closeTo(value, solution[k]!));
      const again = iterate(equations, variances, { start: solution });
      expect(again.steps).toBeLessThan(iterated.steps);
      expect(() => iterate(equations, variances, { onStep: () => false })).toThrow(MeritError);
    },
  );

  it.each([1, 2, 3, 4])('groups of founders are regressions on their shares, model %i', (k) => {
    const chance = new Chance(seed + 100 + k);
    const scores = randomScores(chance, 1);
    const { pedigree } = scores;
    const line = Int32Array.from(pedigree.ids, () => chance.below(3));
    const groups = groupsOfFounders(pedigree, ['a', 'b', 'c'], line);
    const animal = animalModel({ ...scores, groups });
    const equations = new Equations(animal.model);
    const variances = randomVariances(chance, 3, 1);
    const fit = new Fit(equations, variances);
    const { shares } = animal.model.random[0]!.groups!;
    const kept = [0, 1, 2].filter((g) => equations.termEquation[0]![pedigree.size + g]! >= 0);
    const columns = [
      ...columnsOf(equations, scores.fixed!),
      ...kept.map((g) => ({
        trait: 0,
        value: (row: number) => shares[3 * scores.fish[row]! + g]!,
      })),
    ];
    const plain = animalModel(scores).model;
    const a = relationships(scores, equations);
    const dense = solveDense(plain, columns, a, variances);
    // The first stands at 0, and so does one that no scored fish descends from.
    expect(kept.length).toBeGreaterThan(0);
    expect(kept).not.toContain(0);
    closeTo(fit.logLikelihood, dense.logLikelihood);
    dense.effects[0]!.forEach((value, i) => {
      const ofGroups = kept.reduce(
        (sum, g, m) => sum + shares[3 * i + g]! * dense.fixed[columns.length - kept.length + m]!,
        0,
      );
      closeTo(fit.solution[equations.termEquation[0]![i]!]!, value + ofGroups);
    });
  });
});

describe(`REML against the dense likelihood, seed ${seed}`, () => {
  it.each([
    [1, 1],
    [2, 1],
    [3, 2],
    [4, 2],
  ])('model %i of %i traits: no small step anywhere raises it', (k, traits) => {
    const chance = new Chance(seed + 200 + k);
    const scores = randomScores(chance, traits, traits === 1 ? 50 : 70);
    const { weights: _, ...plain } = { ...scores, permanent: false, shared: [] };
    const animal = animalModel(plain);
    const equations = new Equations(animal.model);
    const found = reml(equations);
    const columns = columnsOf(equations, scores.fixed!);
    const a = relationships(plain, equations);
    const at = (variances: Variances): number =>
      solveDense(animal.model, columns, a, variances).logLikelihood;
    const g = found.variances.random[0]!;
    const { residual } = found.variances;
    const top = at({ random: [bumped(g, 0, 0, 1e-9)], residual });
    closeTo(found.logLikelihood, top);
    for (let i = 0; i < traits; i++) {
      for (let j = 0; j <= i; j++) {
        for (const step of [-1e-3, 1e-3]) {
          const size = step * residual[0]![0]!;
          const moved = [
            { random: [bumped(g, i, j, size)], residual },
            { random: [g], residual: bumped(residual, i, j, size) },
          ];
          for (const variances of moved)
            if (isDefinite(variances)) expect(at(variances)).toBeLessThan(top + 1e-6);
        }
      }
    }
  });

  const bumped = (m: Variances['residual'], i: number, j: number, by: number): number[][] =>
    m.map((row, a) =>
      row.map((v, b) => ((a === i && b === j) || (a === j && b === i) ? v + by : v)),
    );
  const isDefinite = ({ random, residual }: Variances): boolean =>
    [...random, residual].every((m) =>
      m.length === 1 ? m[0]![0]! > 0 : m[0]![0]! > 0 && m[0]![0]! * m[1]![1]! > m[0]![1]! ** 2,
    );
});
