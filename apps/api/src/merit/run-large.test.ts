import { RandomBits } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { normals, type OneScore, solveThreshold, writtenModel } from '@linewright/merit';
import type { Moved } from './last-solution.js';
import { solvedAtShares } from './linear-model.js';
import type { ModelAnswer } from './merit-answer.js';
import type { MeritTask } from './merit-task.js';
import { ReadySolutions } from './ready-solutions.js';
import { runMerit } from './run-merit.js';
import { scoresOfTask } from './scores-of-task.js';
import { thresholdAtShares } from './threshold-model.js';

/** Two lines whose founders differ by two, four generations of broods of ten; a heritability of 0.5, all but the founders scored. */
const simulated = (seed: number): MeritTask => {
  const bits = new RandomBits(seed);
  const normal = normals(() => bits.uniform());
  const [sire, dam, value]: [number[], number[], number[]] = [[], [], []];
  const groupOf: number[] = [];
  const pick = (from: number[]): number => from[Math.floor(bits.uniform() * from.length)]!;
  for (const line of [0, 1]) {
    let parents: number[] = [];
    for (let k = 0; k < 8; k++) {
      parents.push(sire.length);
      sire.push(-1);
      dam.push(-1);
      groupOf.push(line);
      value.push(2 * line + normal());
    }
    for (let generation = 0; generation < 4; generation++) {
      const young: number[] = [];
      for (let brood = 0; brood < 5; brood++) {
        const s = pick(parents);
        const d = pick(parents.filter((one) => one !== s));
        for (let k = 0; k < 10; k++) {
          young.push(sire.length);
          sire.push(s);
          dam.push(d);
          groupOf.push(2);
          value.push((value[s]! + value[d]!) / 2 + Math.SQRT1_2 * normal());
        }
      }
      parents = young;
    }
  }
  const fish = [...sire.keys()].filter((i) => sire[i]! >= 0);
  return {
    ...{ trait: 'spread', kind: 'measured', prior: 'flat', looks: false, age: null },
    ...{ shared: [], numbers: [], lines: [], unscored: new Int32Array(0) },
    sire: Int32Array.from(sire),
    dam: Int32Array.from(dam),
    fish: Int32Array.from(fish),
    values: Float64Array.from(fish, (i) => 20 + value[i]! + (i % 2) + normal()),
    fixed: [{ name: 'sex', levels: ['a', 'b'], codes: Int32Array.from(fish, (i) => i % 2) }],
    groups: { names: ['one', 'two'], groupOf: Int32Array.from(groupOf) },
  };
};

describe('a stock whose equations do not fit in memory', () => {
  const task = simulated(20_261_127);
  const told: number[] = [];
  const large = runMerit(task, (share) => told.push(share), 10);
  const whole = runMerit(task);

  it('is answered, with the way that it was done', () => {
    expect(large.linearRefusal).toBeNull();
    expect(large.notes.map(({ code }) => code)).toEqual(['MERIT_FROM_PART', 'MERIT_BY_ITERATION']);
    expect(large.notes[0]!.message).toMatch(/400 scored fish of \d+ broods/);
    expect(large.leftOut.join(' ')).toMatch(/not worked out here: how each line moves/);
    expect([large.wholeStock, whole.wholeStock]).toEqual([false, true]);
  });

  it('has the exact values at the heritability of its part, and errors as good as is said', () => {
    const { shares, values, heritability } = large.linear!;
    expect(heritability.mean).toBeGreaterThan(0.25);
    expect(heritability.mean).toBeLessThan(0.75);
    const exact = solvedAtShares(writtenModel(scoresOfTask(task)), shares);
    const equations = exact.equations.termEquation[0]!;
    let squares = 0;
    for (let i = 0; i < task.sire.length; i++) {
      expect(values.value[i]!).toBeCloseTo(exact.solution[equations[i]!]!, 6);
      const error = Math.sqrt(exact.errorVariances[equations[i]!]!);
      squares += (values.standardError[i]! / error - 1) ** 2;
      const [low, high] = [values.bands[i * 6 + 4]!, values.bands[i * 6 + 5]!];
      expect((high - low) / values.standardError[i]!).toBeCloseTo(2 * 1.959964, 4);
    }
    // 60 draws: two of three within 9 %.
    expect(Math.sqrt(squares / task.sire.length)).toBeLessThan(0.15);
  });

  it('tells how far it is, from the part to the drawn scores, and never backwards', () => {
    expect(told.length).toBeGreaterThan(60);
    expect(told.every((share, k) => k === 0 || share >= told[k - 1]!)).toBe(true);
    expect(told.at(-1)).toBeGreaterThan(0.95);
  });

  it('takes grades as numbers, and says so', () => {
    const graded = runMerit(
      {
        ...task,
        kind: 'ordinal',
        values: task.values.map((value) => Math.max(1, Math.min(5, Math.round(value / 8)))),
      },
      undefined,
      10,
    );
    expect([graded.shown, graded.threshold]).toEqual(['linear', null]);
    expect(graded.thresholdRefusal?.code).toBe('MERIT_TOO_LARGE');
    expect(graded.thresholdRefusal?.message).toContain('too many fish to take grades');
  });

  it('without variation is refused with the same code as any other', () => {
    const flat = runMerit({ ...task, values: task.values.map(() => 4) }, undefined, 10);
    expect(flat.linear).toBeNull();
    expect(flat.linearRefusal?.code).toBe('MERIT_NO_VARIATION');
  });
});

/** A task without its last rows. */
const before = (task: MeritTask, more: number): MeritTask => ({
  ...task,
  fish: task.fish.slice(0, -more),
  values: task.values.slice(0, -more),
  fixed: task.fixed.map((column) => ({ ...column, codes: column.codes.slice(0, -more) })),
});

const lastScores = ({ fish, values, fixed }: MeritTask, more: number): OneScore[] =>
  Array.from({ length: more }, (_, k) => {
    const row = fish.length - more + k;
    return { fish: fish[row]!, value: values[row]!, fixed: fixed.map(({ codes }) => codes[row]!) };
  });

const readyModel = ({ shares, variance, values: { standardError } }: ModelAnswer) => ({
  ...{ shares, variance, standardError },
});

const furthest = (one: Float64Array, other: Float64Array): number =>
  one.reduce((most, value, i) => Math.max(most, Math.abs(value - other[i]!)), 0);

describe('some scores more', () => {
  const task = simulated(20_261_128);
  const scores = lastScores(task, 3);

  it('move values by iteration as they move them by the factor', () => {
    const was = before(task, 3);
    const { linear } = runMerit(was, undefined, 10);
    const from = { task: was, linear: readyModel(linear!), threshold: null };
    const ask = { key: 'a', from, scores };
    const [iterated, factored] = [new ReadySolutions(10), new ReadySolutions()].map(
      (ready) => (ready.moved(ask) as Moved).linear!,
    );
    expect(furthest(iterated!.value, factored!.value)).toBeLessThan(1e-5);
    expect(Math.max(...factored!.value.map(Math.abs))).toBeGreaterThan(0.1);
    for (const { fish } of scores) expect(iterated!.error[fish]!).toBeLessThan(0.95);
    // What is ready answers without the records; what is not asks for them.
    const ready = new ReadySolutions(10);
    expect(ready.moved({ ...ask, from: null })).toBe('task');
    ready.moved(ask);
    expect((ready.moved({ ...ask, from: null }) as Moved).linear).toEqual(iterated);
  });

  it('move values of grades as all grades solved at the same shares do', () => {
    const graded: MeritTask = {
      ...{ ...task, kind: 'ordinal', groups: null },
      values: task.values.map((value) => Math.max(0, Math.min(4, Math.round((value - 19) / 1.5)))),
    };
    const was = before(graded, 3);
    const answer = runMerit(was);
    expect(answer.shown).toBe('threshold');
    const threshold = readyModel(answer.threshold!);
    const from = { task: was, linear: readyModel(answer.linear!), threshold };
    const ready = new ReadySolutions();
    const moved = ready.moved({ key: 'b', from, scores: lastScores(graded, 3) }) as Moved;
    const [old, all] = [was, graded].map((of) => {
      const { solution, equations } = solveThreshold(
        thresholdAtShares(of, scoresOfTask(of), threshold.shares),
      );
      return solution.slice(equations.firstOfTerm[0]!);
    });
    const unit = Math.sqrt(threshold.shares.residual);
    const wanted = all!.map((value, i) => unit * (value - old![i]!));
    expect(furthest(moved.threshold!.value, wanted)).toBeLessThan(1e-6);
    expect(Math.max(...wanted.map(Math.abs))).toBeGreaterThan(0.02);
    for (const { fish } of scores) expect(moved.threshold!.error[fish]!).toBeLessThan(0.99);
    expect(moved.linear!.value.some((value) => value !== 0)).toBe(true);
    const unseen = lastScores(graded, 3).map((score) => ({ ...score, value: 7 }));
    expect(ready.moved({ key: 'b', from, scores: unseen })).toBeNull();
  });
});
