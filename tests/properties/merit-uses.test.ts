import { pedigreeFromArrays, type Pedigree } from '@linewright/pedigree';
import {
  animalModel,
  betaPrior,
  breedingValues,
  Equations,
  inbreedingLoad,
  keptByIteration,
  KeptSolution,
  meanBreedingValue,
  MeritError,
  normalBelow,
  normalQuantile,
  reasonsFor,
  responseByGeneration,
  solveAt,
  solveAtRatios,
  valuesOverHeritability,
  weighInheritance,
  type AnimalScores,
} from '@linewright/merit';
import { describe, expect, it } from 'vitest';
import { Chance, tangledPedigree } from './simulated-line.js';

const seed = 20_261_127;
const close = (actual: number, wanted: number, within = 1e-8): void =>
  expect(Math.abs(actual - wanted)).toBeLessThan(within * (1 + Math.abs(wanted)));

function scoresOf(chance: Chance, pedigree: Pedigree, rows: number): AnimalScores {
  const codes = (levels: number) =>
    Int32Array.from({ length: rows }, (_, k) => (k < levels ? k : chance.below(levels)));
  return {
    pedigree,
    fish: Int32Array.from({ length: rows }, () => chance.below(pedigree.size)),
    traits: [{ name: 'y', values: Float64Array.from({ length: rows }, () => 9 + chance.normal()) }],
    fixed: [
      { kind: 'classes', name: 'season', levels: ['a', 'b', 'c'], codes: codes(3) },
      {
        kind: 'covariate',
        name: 'age',
        values: Float64Array.from({ length: rows }, () => chance.next()),
      },
    ],
    shared: [{ name: 'brood', levels: ['1', '2', '3', '4'], codes: codes(4) }],
    permanent: true,
  };
}

/** The first `rows` rows. */
function cut(scores: AnimalScores, rows: number): AnimalScores {
  return {
    ...scores,
    fish: scores.fish.slice(0, rows),
    traits: scores.traits.map(({ name, values }) => ({ name, values: values.slice(0, rows) })),
    fixed: scores.fixed!.map((column) =>
      column.kind === 'classes'
        ? { ...column, codes: column.codes.slice(0, rows) }
        : { ...column, values: column.values.slice(0, rows) },
    ),
    shared: scores.shared!.map((column) => ({ ...column, codes: column.codes.slice(0, rows) })),
  };
}

describe(`scores one after the other, seed ${seed}`, () => {
  it.each([1, 2, 3, 4, 5])('are as if all had been there from the beginning, model %i', (k) => {
    const chance = new Chance(seed + k);
    const pedigree = tangledPedigree(30, 4, chance);
    const all = scoresOf(chance, pedigree, 40);
    const variances = { random: [[[0.5]], [[0.2]], [[0.3]]], residual: [[0.6]] };
    const model = (scores: AnimalScores) => {
      const animal = animalModel(scores);
      return solveAt(animal, new Equations(animal.model), variances);
    };
    const kept = new KeptSolution(model(cut(all, 36)));
    for (let row = 36; row < 40; row++) {
      // A fish that was not looked at has no lasting effect yet; two looks at one would need it.
      const looked = all.fish.subarray(0, row).includes(all.fish[row]!);
      const known = all.fish.subarray(0, 36).includes(all.fish[row]!);
      if (looked && !known) continue;
      const [season, age] = all.fixed!;
      kept.add({
        fish: all.fish[row]!,
        value: all.traits[0]!.values[row]!,
        fixed: [
          season!.kind === 'classes' ? season!.codes[row]! : 0,
          age!.kind === 'covariate' ? age!.values[row]! : 0,
        ],
        shared: [all.shared![0]!.codes[row]!],
      });
      if (row < 39) continue;
      const [direct] = breedingValues(model(all));
      direct!.value.forEach((value, i) => close(kept.values.value[i]!, value));
      direct!.standardError.forEach((value, i) => close(kept.values.standardError[i]!, value));
    }
    expect(() => kept.add({ fish: 99, value: 1, fixed: [0, 0] })).toThrow(MeritError);
    expect(() => kept.add({ fish: 1, value: 1, fixed: [7, 0] })).toThrow(MeritError);
  });

  it('are the same by iteration, where the factor would be too large', () => {
    const chance = new Chance(seed + 9);
    const pedigree = tangledPedigree(30, 4, chance);
    const scores = cut(scoresOf(chance, pedigree, 40), 36);
    const animal = animalModel(scores);
    const equations = new Equations(animal.model);
    const ratios = [0.8, 0.3, 0.5];
    const solved = solveAtRatios(animal, equations, ratios);
    const exact = new KeptSolution(solved);
    const standardError = exact.values.standardError;
    const iterated = new KeptSolution(
      keptByIteration(animal, equations, { ratios, residual: solved.scale, standardError }),
    );
    const fish = scores.fish[3]!;
    for (const kept of [exact, iterated])
      for (const value of [14, 9]) kept.add({ fish, value, fixed: [1, 2], shared: [0] });
    exact.values.value.forEach((value, i) => close(iterated.values.value[i]!, value, 1e-5));
    exact.values.standardError.forEach((error, i) =>
      close(iterated.values.standardError[i]!, error, 1e-5),
    );
    expect(exact.values.standardError[fish]!).toBeLessThan(standardError[fish]!);
  });
});

describe(`reasons, seed ${seed}`, () => {
  it.each([1, 2, 3])(
    'add up to the breeding value; means carry their own errors, model %i',
    (k) => {
      const chance = new Chance(seed + 50 + k);
      const pedigree = tangledPedigree(30, 4, chance);
      const animal = animalModel(scoresOf(chance, pedigree, 40));
      const solved = solveAtRatios(animal, new Equations(animal.model), [0.7, 0.1, 0.2]);
      const [values] = breedingValues(solved);
      for (const fish of [0, 7, 29]) {
        const reasons = reasonsFor(solved, fish);
        close(
          reasons.reduce((sum, { contribution }) => sum + contribution, 0),
          values!.value[fish]!,
        );
        const mean = meanBreedingValue(solved, [fish]);
        close(mean.value, values!.value[fish]!);
        close(mean.standardError, values!.standardError[fish]!);
      }
    },
  );

  it('weigh own score as the index of one record does: the heritability, with a known mean', () => {
    const pedigree = pedigreeFromArrays(Int32Array.of(-1), Int32Array.of(-1));
    const animal = animalModel({
      pedigree,
      fish: Int32Array.of(0),
      traits: [{ name: 'y', values: Float64Array.of(10) }],
      mean: 'known',
    });
    const solved = solveAt(animal, new Equations(animal.model), {
      random: [[[0.3]]],
      residual: [[0.7]],
    });
    expect(reasonsFor(solved, 0)).toEqual([
      { fish: 0, scores: 1, weight: expect.closeTo(0.3, 12), contribution: expect.closeTo(3, 12) },
    ]);
  });
});

describe('values over all heritabilities', () => {
  it('keep the prior where the scores say nothing, and say that all came from it', () => {
    const size = 12;
    const none = new Int32Array(size).fill(-1);
    const chance = new Chance(seed + 90);
    const prior = betaPrior('narrow', 0.3, 0.1, 'of this test');
    const posterior = valuesOverHeritability(
      {
        pedigree: pedigreeFromArrays(none, none),
        fish: Int32Array.from({ length: size }, (_, i) => i),
        traits: [{ name: 'y', values: Float64Array.from({ length: size }, () => chance.normal()) }],
      },
      { prior, cells: 40 },
    );
    const { mean, standardDeviation, fromPrior } = posterior.heritability;
    expect(mean).toBeCloseTo(0.3, 2);
    expect(standardDeviation).toBeCloseTo(0.1, 2);
    expect(fromPrior).toBeCloseTo(1, 6);
    const band = posterior.heritabilityBand(0.8);
    expect(band.low).toBeGreaterThan(0.12);
    expect(band.high).toBeLessThan(0.48);
  });

  it('agree with the mixture worked point by point', () => {
    const chance = new Chance(seed + 91);
    const pedigree = tangledPedigree(25, 4, chance);
    const scores = { ...cut(scoresOf(chance, pedigree, 30), 30), shared: [], permanent: false };
    const posterior = valuesOverHeritability(scores, { cells: 10 });
    const animal = animalModel(scores);
    const equations = new Equations(animal.model);
    const points = Array.from({ length: 10 }, (_, k) => (k + 0.5) / 10).map((h) => {
      const solved = solveAtRatios(animal, equations, [h / (1 - h)]);
      return { h, weight: Math.exp(solved.logLikelihood), value: breedingValues(solved)[0]!.value };
    });
    const total = points.reduce((sum, { weight }) => sum + weight, 0);
    const mean = (of: (point: (typeof points)[number]) => number) =>
      points.reduce((sum, point) => sum + (point.weight / total) * of(point), 0);
    close(
      posterior.heritability.mean,
      mean(({ h }) => h),
    );
    close(
      posterior.value[9]!,
      mean(({ value }) => value[9]!),
    );
    const wide = posterior.band(9, 0.95);
    const narrow = posterior.band(9, 0.5);
    expect(wide.low).toBeLessThan(narrow.low);
    expect(narrow.low).toBeLessThan(posterior.value[9]!);
    expect(wide.high - wide.low).toBeGreaterThan(2 * posterior.standardError[9]!);
  });
});

describe(`inbreeding load of simulated broods, seed ${seed}`, () => {
  const simulate = (chance: Chance, a: number, b: number, rho: number, broods = 30) => {
    const f = Array.from({ length: broods }, (_, k) => [0, 0.125, 0.25, 0.375][k % 4]!);
    const counted = f.map(() => 60 + chance.below(100));
    const survivors = f.map((value, k) => {
      const p = Math.exp(-a - b * value);
      // A beta variate by ordering is slow; a normal one cut to the range is near enough here.
      const own = Math.min(
        0.999,
        Math.max(0.001, p + Math.sqrt(rho * p * (1 - p)) * chance.normal()),
      );
      let alive = 0;
      for (let n = 0; n < counted[k]!; n++) if (chance.next() < own) alive++;
      return alive;
    });
    return { survivors, counted, inbreeding: [{ name: 'F', values: f }] };
  };

  it('is found where it is, and its interval holds the truth in most of 40 sets', () => {
    const chance = new Chance(seed + 10);
    let held = 0;
    let sum = 0;
    for (let k = 0; k < 40; k++) {
      const [load] = inbreedingLoad(simulate(chance, 0.3, 1.2, 0.02)).loads;
      sum += load!.perGamete / 40;
      if (load!.interval.low <= 1.2 && load!.interval.high >= 1.2) held++;
    }
    expect(sum).toBeGreaterThan(1.05);
    expect(sum).toBeLessThan(1.35);
    expect(held).toBeGreaterThanOrEqual(33);
  });

  it('cannot be told from few broods without it, and says what could have been seen', () => {
    const chance = new Chance(seed + 11);
    const loadsOf = (broods: number) =>
      Array.from(
        { length: 20 },
        () => inbreedingLoad(simulate(chance, 0.3, 0, 0.05, broods)).loads[0]!,
      );
    const mean = (loads: ReturnType<typeof loadsOf>): number =>
      loads.reduce((sum, { smallestDetectable }) => sum + smallestDetectable / loads.length, 0);
    const few = loadsOf(8);
    const many = loadsOf(80);
    // By chance alone one in 20 is taken for a load.
    const untold = few.filter(({ verdict }) => verdict === 'cannot tell yet');
    expect(untold.length).toBeGreaterThanOrEqual(16);
    expect(mean(many)).toBeLessThan(mean(few) / 2);
  });

  it('is found in four of five sets when it is as large as the smallest that can be', () => {
    const chance = new Chance(seed + 12);
    const [plan] = inbreedingLoad(simulate(chance, 0.3, 0, 0.02)).loads;
    let seen = 0;
    for (let k = 0; k < 40; k++)
      if (
        inbreedingLoad(simulate(chance, 0.3, plan!.smallestDetectable, 0.02)).loads[0]!.verdict ===
        'costs'
      )
        seen++;
    expect(seen).toBeGreaterThanOrEqual(24);
    expect(seen).toBeLessThanOrEqual(40);
  });

  it('refuses broods of one F, and counts that cannot be', () => {
    const same = { survivors: [5, 6, 7, 8], counted: [9, 9, 9, 9] };
    const of =
      (values: number[], more = same) =>
      () =>
        inbreedingLoad({ ...more, inbreeding: [{ name: 'F', values }] });
    expect(of([0.25, 0.25, 0.25, 0.25])).toThrow('nothing to compare');
    expect(of([0, 0.1, 1.2, 0])).toThrow('no inbreeding coefficient');
    expect(of([0, 0.1, 0.2, 0], { ...same, survivors: [10, 1, 1, 1] })).toThrow('10 of 9');
  });
});

describe(`ways of inheritance on simulated lines, seed ${seed}`, () => {
  /** Four pairs of founders, three generations of four broods of twelve. */
  function line(chance: Chance): Pedigree {
    const sire: number[] = new Array<number>(8).fill(-1);
    const dam: number[] = new Array<number>(8).fill(-1);
    let before = [0, 1, 2, 3, 4, 5, 6, 7];
    for (let g = 0; g < 3; g++) {
      const born: number[] = [];
      for (let b = 0; b < 4; b++) {
        const s = before[chance.below(before.length)]!;
        let d = s;
        while (d === s) d = before[chance.below(before.length)]!;
        for (let k = 0; k < 12; k++) {
          born.push(sire.length);
          sire.push(s);
          dam.push(d);
        }
      }
      before = born;
    }
    return pedigreeFromArrays(Int32Array.from(sire), Int32Array.from(dam));
  }

  it('tells one recessive locus', () => {
    const chance = new Chance(seed + 30);
    const pedigree = line(chance);
    const copies = new Int32Array(pedigree.size);
    for (let i = 0; i < pedigree.size; i++) {
      const gamete = (parent: number) =>
        parent < 0 ? +(chance.next() < 0.4) : +(chance.next() < copies[parent]! / 2);
      copies[i] = gamete(pedigree.sire[i]!) + gamete(pedigree.dam[i]!);
    }
    const { hypotheses, verdict } = weighInheritance(
      pedigree,
      copies.map((n) => +(n === 2)),
    );
    expect(hypotheses[0]!.code).toBe('one-recessive');
    expect(hypotheses[0]!.weight).toBeGreaterThan(0.4);
    expect([null, 'one locus']).toContain(verdict);
    expect(hypotheses.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 10);
  });

  it('does not see inheritance in throws of a coin', () => {
    const chance = new Chance(seed + 31);
    const pedigree = line(chance);
    const { hypotheses } = weighInheritance(
      pedigree,
      pedigree.ids.map(() => +(chance.next() < 0.3)),
    );
    const weightOf = (start: string) =>
      hypotheses.reduce((sum, { code, weight }) => sum + (code.startsWith(start) ? weight : 0), 0);
    expect(weightOf('one-') + weightOf('two-')).toBeLessThan(0.1);
  });

  it('tells many loci', () => {
    const chance = new Chance(seed + 32);
    // One line alone may look like a single locus by chance.
    const weights = new Map<string, number>();
    for (let k = 0; k < 3; k++) {
      const pedigree = line(chance);
      const value = new Float64Array(pedigree.size);
      for (let i = 0; i < pedigree.size; i++) {
        const [s, d] = [pedigree.sire[i]!, pedigree.dam[i]!];
        value[i] =
          s < 0 ? chance.normal() : (value[s]! + value[d]!) / 2 + Math.SQRT1_2 * chance.normal();
      }
      const seen = Array.from(value, (v) => +(v + 0.8 * chance.normal() > 0.3));
      for (const { code, weight } of weighInheritance(pedigree, seen).hypotheses)
        weights.set(code, (weights.get(code) ?? 0) + weight);
    }
    const others = [...weights].filter(([code]) => code !== 'many').map(([, weight]) => weight);
    expect(weights.get('many')).toBeGreaterThan(Math.max(...others));
  });

  it('refuses a trait that all show', () => {
    const pedigree = line(new Chance(1));
    expect(() =>
      weighInheritance(
        pedigree,
        pedigree.ids.map(() => 1),
      ),
    ).toThrow(MeritError);
  });
});

describe(`response to selection, seed ${seed}`, () => {
  it('follows heritability times differential in a selected line', () => {
    const chance = new Chance(seed + 40);
    const sire: number[] = [];
    const dam: number[] = [];
    const generation: number[] = [];
    const value: number[] = [];
    const score: number[] = [];
    const born = (s: number, d: number, g: number): number => {
      const own =
        s < 0
          ? Math.sqrt(0.5) * chance.normal()
          : (value[s]! + value[d]!) / 2 + Math.sqrt(0.25) * chance.normal();
      sire.push(s);
      dam.push(d);
      generation.push(g);
      value.push(own);
      return score.push(own + Math.sqrt(0.5) * chance.normal()) - 1;
    };
    let now = Array.from({ length: 200 }, () => born(-1, -1, 0));
    for (let g = 1; g <= 4; g++) {
      const best = [...now].sort((a, b) => score[b]! - score[a]!).slice(0, 40);
      now = Array.from({ length: 200 }, (_, k) => born(best[k % 20]!, best[20 + (k % 20)]!, g));
    }
    const pedigree = pedigreeFromArrays(Int32Array.from(sire), Int32Array.from(dam));
    const animal = animalModel({
      pedigree,
      fish: Int32Array.from(sire, (_, i) => i),
      traits: [{ name: 'y', values: Float64Array.from(score) }],
    });
    const solved = solveAtRatios(animal, new Equations(animal.model), [1]);
    const { generations, realisedHeritability } = responseByGeneration(
      solved,
      Int32Array.from(generation),
      Float64Array.from(score),
      0.5,
    );
    expect(generations.map(({ fish }) => fish)).toEqual([200, 200, 200, 200, 200]);
    for (const { expectedResponse, realisedResponse } of generations.slice(1))
      expect(Math.abs(expectedResponse! - realisedResponse!)).toBeLessThan(0.35);
    expect(realisedHeritability!.value).toBeGreaterThan(0.3);
    expect(realisedHeritability!.value).toBeLessThan(0.6);
    for (const {
      meanBreedingValue: mean,
      meanBreedingValueError: error,
      generation: g,
    } of generations) {
      const members = value.filter((_, i) => generation[i] === g);
      const truth = members.reduce((sum, v) => sum + v, 0) / members.length;
      const first = value.slice(0, 200).reduce((sum, v) => sum + v, 0) / 200;
      expect(Math.abs(mean - (truth - first))).toBeLessThan(4 * error);
    }
    expect(generations.at(-1)!.meanInbreeding).toBeGreaterThan(0);
  });
});

describe('the normal distribution', () => {
  it('has its known values', () => {
    // SciPy's norm.cdf and norm.ppf, from memory to all digits shown.
    expect(normalBelow(1.959963984540054)).toBeCloseTo(0.975, 14);
    expect(normalBelow(-8) / 6.22096057427178e-16).toBeCloseTo(1, 8);
    expect(normalBelow(0)).toBe(0.5);
    expect(normalQuantile(0.975)).toBeCloseTo(1.959963984540054, 12);
  });
});
