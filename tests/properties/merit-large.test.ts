import {
  animalModel,
  breedingValues,
  Equations,
  groupsOfFounders,
  MeritError,
  solveAt,
  solveAtRatios,
  solveByWork,
  type AnimalScores,
  type Variances,
} from '@linewright/merit';
import { describe, expect, it } from 'vitest';
import { Chance, tangledPedigree } from './simulated-line.js';

const seed = 20_261_131;

function scoresOf(chance: Chance, traits: number, size = 150): AnimalScores {
  const fish = Int32Array.from({ length: size }, (_, i) => i);
  return {
    pedigree: tangledPedigree(size, 10, chance),
    fish,
    traits: Array.from({ length: traits }, (_, t) => ({
      name: `t${t}`,
      values: Float64Array.from(fish, () => (chance.next() < 0.3 ? NaN : chance.normal())),
    })),
    fixed: [
      {
        kind: 'classes',
        name: 'season',
        levels: ['a', 'b'],
        codes: Int32Array.from(fish, (i) => i % 2),
      },
    ],
  };
}

const byHand = { mostWork: 0, draws: 100 };
const close = (found: Float64Array, wanted: Float64Array): void =>
  wanted.forEach((value, i) => expect(found[i]!).toBeCloseTo(value, 7));

/** Relative errors of standard errors: their mean, and the root of their mean square. */
function offBy(found: Float64Array, exact: Float64Array): [mean: number, spread: number] {
  const off = Array.from(exact, (value, i) => found[i]! / value - 1);
  const mean = off.reduce((sum, r) => sum + r, 0) / off.length;
  return [mean, Math.sqrt(off.reduce((sum, r) => sum + r * r, 0) / off.length)];
}

describe(`equations too large for a factor, seed ${seed}`, () => {
  const one: Variances = { random: [[[0.4]]], residual: [[0.6]] };
  const two: Variances = {
    random: [
      [
        [0.4, 0.2],
        [0.2, 0.5],
      ],
    ],
    residual: [
      [0.6, 0.1],
      [0.1, 0.5],
    ],
  };

  it.each([
    [1, one],
    [2, two],
  ])('have the same values, and errors as good as said, with %i traits', (traits, variances) => {
    const animal = animalModel(scoresOf(new Chance(seed + traits), traits));
    const equations = new Equations(animal.model);
    const exact = breedingValues(solveAt(animal, equations, variances));
    const large = solveByWork(animal, new Equations(animal.model), { variances }, byHand);
    expect(large).toMatchObject({ method: 'iteration', solved: null });
    expect(large.notes.map(({ code }) => code)).toEqual(['MERIT_BY_ITERATION']);
    expect(large.notes[0]!.message).toContain('within 7 %');
    exact.forEach(({ value, standardError }, t) => {
      close(large.values[t]!.value, value);
      const [mean, spread] = offBy(large.values[t]!.standardError, standardError);
      expect(Math.abs(mean)).toBeLessThan(0.05);
      expect(spread).toBeLessThan(0.1);
      expect(spread).toBeGreaterThan(0);
    });
  });

  it('find the scale at given ratios, and allow for groups', () => {
    const plain = scoresOf(new Chance(seed + 3), 1);
    const groups = groupsOfFounders(
      plain.pedigree,
      ['red', 'blue'],
      Int32Array.from({ length: plain.pedigree.size }, (_, i) => i % 2),
    );
    for (const scores of [plain, { ...plain, groups }]) {
      const animal = animalModel(scores);
      const exact = solveAtRatios(animal, new Equations(animal.model), [0.5]);
      const [values] = breedingValues(exact);
      const large = solveByWork(animal, new Equations(animal.model), { ratios: [0.5] }, byHand);
      expect(large.variances.residual[0]![0]!).toBeCloseTo(exact.variances.residual[0]![0]!, 8);
      close(large.values[0]!.value, values!.value);
      const [mean, spread] = offBy(large.values[0]!.standardError, values!.standardError);
      expect(Math.abs(mean)).toBeLessThan(0.08);
      expect(spread).toBeLessThan(0.15);
    }
  });

  it('are factored while that is affordable, and stop when told', () => {
    const animal = animalModel(scoresOf(new Chance(seed + 4), 1));
    const small = solveByWork(animal, new Equations(animal.model), { variances: one });
    expect(small.method).toBe('factor');
    expect(small.notes).toEqual([]);
    expect(small.solved).not.toBeNull();
    // A factor that would hold too many numbers is not even planned.
    const held = { mostEntries: 100, draws: 10 };
    expect(solveByWork(animal, new Equations(animal.model), { ratios: [1] }, held).method).toBe(
      'iteration',
    );
    const steps: number[] = [];
    const stopped = () =>
      solveByWork(
        animal,
        new Equations(animal.model),
        { variances: one },
        {
          ...byHand,
          onStep: (done, all) => {
            steps.push(done / all);
            return done < 5;
          },
        },
      );
    expect(stopped).toThrow(MeritError);
    expect(Math.max(...steps)).toBeCloseTo(5 / 101, 12);
    const few = () =>
      solveByWork(animal, new Equations(animal.model), { variances: one }, { ...byHand, draws: 3 });
    expect(few).toThrow('3 draws');
  });
});
