import {
  animalModel,
  Equations,
  iterate,
  KeptSolution,
  reml,
  solveAt,
  solveAtRatios,
  type AnimalScores,
  normals,
  valuesOverHeritability,
  writtenModel,
} from '@linewright/merit';
import { pedigreeFromArrays, seededChance } from '@linewright/pedigree';
import { bigSpawns, smallSpawns, type ParentArrays } from './pedigree-shapes.js';

type Emit = (line: Record<string, unknown>) => void;
const SEED = 20_261_126;
/** Beyond so many multiplications of a factorisation the equations are solved by iteration. */
const WORK = 5e9;

/** `npm run bench -- merit`: breeding values, REML and one score more, against size. */
export function run(emit: Emit): void {
  for (const [shape, make] of [
    ['big spawns', bigSpawns],
    ['small spawns', smallSpawns],
  ] as const) {
    for (const fish of [1000, 3000, 10_000, 30_000, 100_000])
      benchOneTrait(emit, shape, make(fish, SEED));
    benchReml(emit, shape, make(10_000, SEED));
    benchMoreAgainstAll(emit, shape, make(1000, SEED));
    benchThreeTraits(emit, shape, make(100_000, SEED));
  }
}

function benchOneTrait(emit: Emit, shape: string, parents: ParentArrays): void {
  const fish = parents.sire.length;
  const base = { shape, seed: SEED, fish, traits: 1 };
  const scores = simulated(parents, 1);
  let equations: Equations | undefined;
  const build = timed(() => {
    equations = new Equations(animalModel(scores).model);
  });
  emit({ ...base, what: 'write the equations', ...build });
  const order = timed(() => equations!.symbolic);
  const { entries, work } = equations!.symbolic;
  emit({ ...base, what: 'order of elimination', entries, work, ...order });
  const animal = animalModel(scores);
  if (work > WORK) {
    let steps = 0;
    const times = timed(() => {
      ({ steps } = iterate(equations!, { random: [[[0.4]]], residual: [[0.6]] }));
    });
    emit({ ...base, what: 'given ratio, by iteration, no errors', steps, ...times });
    return;
  }
  const all = timed(() => {
    const fresh = animalModel(scores);
    return solveAtRatios(fresh, new Equations(fresh.model), [2 / 3]);
  });
  emit({ ...base, what: 'given ratio, all from scores to exact errors', ...all });
  const kept = new KeptSolution(solveAtRatios(animal, equations!, [2 / 3]));
  const more = timed(() => {
    kept.add({ fish: fish - 1, value: 11, fixed: [0] });
    return kept.values;
  });
  emit({ ...base, what: 'one score more, with errors', ...more });
}

/** How far values that one score more moved lie from those with all heritabilities gone over again, in their standard errors. */
function benchMoreAgainstAll(emit: Emit, shape: string, parents: ParentArrays): void {
  const fish = parents.sire.length;
  const scores = simulated(parents, 1);
  const without = (row: number): AnimalScores => ({
    ...scores,
    traits: scores.traits.map((trait) => ({
      ...trait,
      values: trait.values.map((value, k) => (k === row ? NaN : value)),
    })),
  });
  const whole = valuesOverHeritability(scores);
  const [season] = scores.fixed ?? [];
  const found = [7, 5, 3, 1].map((tenth) => {
    const row = Math.floor((tenth * fish) / 10);
    const before = valuesOverHeritability(without(row));
    const { animal, equations } = writtenModel(without(row));
    const [share = 0.5] = before.meanShares;
    const kept = new KeptSolution(solveAtRatios(animal, equations, [share / (1 - share)]));
    const was = kept.values.value;
    const code = season?.kind === 'classes' ? season.codes[row]! : 0;
    kept.add({ fish: row, value: scores.traits[0]!.values[row]!, fixed: [code] });
    const { value } = kept.values;
    const off = (moved: (i: number) => number): number =>
      whole.value.reduce(
        (most, exact, i) =>
          Math.max(most, Math.abs(before.value[i]! + moved(i) - exact) / whole.standardError[i]!),
        0,
      );
    return { with: off((i) => value[i]! - was[i]!), without: off(() => 0) };
  });
  const most = (of: 'with' | 'without'): number =>
    Number(Math.max(...found.map((one) => one[of])).toFixed(4));
  const what = 'one score more, furthest from all worked out anew, in standard errors';
  emit({
    shape,
    seed: SEED,
    fish,
    traits: 1,
    what,
    moved: most('with'),
    notMoved: most('without'),
  });
}

function benchReml(emit: Emit, shape: string, parents: ParentArrays): void {
  const fish = parents.sire.length;
  const equations = new Equations(animalModel(simulated(parents, 1)).model);
  let steps = 0;
  const times = timed(() => {
    steps = reml(equations).iterations;
  });
  emit({ shape, seed: SEED, fish, traits: 1, what: 'REML', steps, ...times });
}

function benchThreeTraits(emit: Emit, shape: string, parents: ParentArrays): void {
  const fish = parents.sire.length;
  const base = { shape, seed: SEED, fish, traits: 3 };
  const scores = simulated(parents, 3);
  const g = [
    [0.4, 0.2, 0.1],
    [0.2, 0.4, 0.1],
    [0.1, 0.1, 0.4],
  ];
  const variances = {
    random: [g],
    residual: [
      [0.6, 0.1, 0],
      [0.1, 0.6, 0.1],
      [0, 0.1, 0.6],
    ],
  };
  const animal = animalModel(scores);
  const equations = new Equations(animal.model);
  let told = 0;
  const times = timed(() => iterate(equations, variances, { onStep: () => ++told > 0 }));
  const what = 'given variances, by iteration, no errors';
  emit({ ...base, what, steps: told, ...times });
  // A long computation: how far it is comes after each step, and it is stopped there.
  const half = Math.floor(told / 2);
  let from = 0;
  const onStep = (step: number): boolean => {
    if (step === half) from = performance.now();
    return step < half;
  };
  try {
    iterate(equations, variances, { onStep });
  } catch {
    emit({ ...base, what: 'stopped half way', ms: Math.round(performance.now() - from) });
  }
  if (shape !== 'big spawns') return;
  const exact = timed(() => {
    const animal = animalModel(scores);
    return solveAt(animal, new Equations(animal.model), variances);
  });
  emit({ ...base, what: 'given variances, exact errors', ...exact });
}

function simulated({ sire, dam }: ParentArrays, traits: number): AnimalScores {
  const chance = seededChance(SEED);
  const normal = normals(chance);
  const size = sire.length;
  const value = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    value[i] =
      sire[i]! < 0
        ? Math.sqrt(0.4) * normal()
        : (value[sire[i]!]! + value[dam[i]!]!) / 2 + Math.sqrt(0.2) * normal();
  }
  const codes = Int32Array.from(value, () => Math.floor(4 * chance()));
  return {
    pedigree: pedigreeFromArrays(sire, dam),
    fish: Int32Array.from({ length: size }, (_, i) => i),
    traits: Array.from({ length: traits }, (_, t) => ({
      name: `trait ${t}`,
      values: value.map((v, i) =>
        traits > 1 && i % (5 + t) === 0 ? NaN : 10 + codes[i]! + v + Math.sqrt(0.6) * normal(),
      ),
    })),
    fixed: [{ kind: 'classes', name: 'season', levels: ['1', '2', '3', '4'], codes }],
  };
}

/** Time by the clock and processor time, which counts when the machine is busy with other things. */
function timed(work: () => unknown): { readonly ms: number; readonly cpuMs: number } {
  const cpu = process.cpuUsage();
  const start = performance.now();
  work();
  const ms = performance.now() - start;
  const { user, system } = process.cpuUsage(cpu);
  return { ms: Math.round(ms), cpuMs: Math.round((user + system) / 1000) };
}
