import { describe, expect, it } from 'vitest';
import type { LookRow } from '../stock/merit-rows.js';
import { looksBefore, scoresMore, withScoresMore } from './last-solution.js';
import type { MeritAnswer, ModelAnswer } from './merit-answer.js';
import type { LevelColumn, MeritTask } from './merit-task.js';

interface Told {
  readonly fish: number;
  readonly recordedAt: number;
  readonly sex: string;
  readonly brood: string | null;
  readonly age: number | null;
}

const look = (id: number, { recordedAt, age }: Told): LookRow => ({
  ...{ id: `look ${id}`, fishId: '', value: 10 + id, scoredOn: '2026-01-01', ageDays: age },
  ...{ scorer: '', version: 1, swimsWithId: null, recordedAt },
});

const column = (name: string, values: readonly (string | null)[]): LevelColumn => {
  const levels = [...new Set(values)].filter((value) => value !== null).sort();
  const codes = values.map((value) => (value === null ? -1 : levels.indexOf(value)));
  return { name, levels, codes: Int32Array.from(codes) };
};

/** Looks by the place they stand at in `all`, and the task they make. */
const taskOf = (
  all: readonly Told[],
  taken: readonly number[],
  change: Partial<MeritTask> = {},
) => {
  const told = taken.map((k) => all[k]!);
  const ages = told.flatMap(({ age }) => (age === null ? [] : [age]));
  const mean = ages.reduce((sum, age) => sum + age, 0) / ages.length;
  const task: MeritTask = {
    ...{
      trait: 'spread',
      kind: 'measured',
      prior: 'flat',
      looks: false,
      groups: null,
      numbers: [],
    },
    ...{ sire: new Int32Array(9).fill(-1), dam: new Int32Array(9).fill(-1), lines: [] },
    fish: Int32Array.from(told, ({ fish }) => fish),
    values: Float64Array.from(taken, (k) => 10 + k),
    fixed: [
      column(
        'sex',
        told.map(({ sex }) => sex),
      ),
    ],
    age: Float64Array.from(told, ({ age }) => (age === null ? 0 : age - mean)),
    shared: [
      column(
        'brood',
        told.map(({ brood }) => brood),
      ),
    ],
    unscored: Int32Array.of(7, 8),
    ...change,
  };
  return { task, looksTaken: taken.map((k) => look(k, all[k]!)) };
};

const one: Told = { fish: 0, recordedAt: 1, sex: 'f', brood: 'B', age: 100 };
const two: Told = { ...one, fish: 1, sex: 'm', brood: 'C', age: 120 };

describe('looks before', () => {
  it('are those without the newest, in their order', () => {
    const looks = [3, 1, 4, 2].map((recordedAt, k) => look(k, { ...one, recordedAt }));
    expect(looksBefore(looks, 2).map(({ recordedAt }) => recordedAt)).toEqual([1, 2]);
  });
});

describe('scores more', () => {
  const added = (told: Partial<Told>) => [{ ...two, fish: 2, age: 140, ...told }, one, two];
  const before = (all: readonly Told[]) => taskOf(all, [1, 2]);
  const now = (all: readonly Told[]) => taskOf(all, [0, 1, 2]);

  it('are rows of the model before, with its levels and its mean age', () => {
    const all = added({});
    expect(scoresMore(before(all), now(all)).scores).toEqual([
      { fish: 2, value: 10, fixed: [1, 30], shared: [1] },
    ]);
  });

  it('may be of a brood that was not met, or of none, and of unknown age', () => {
    const all = added({ brood: 'A', age: null });
    expect(scoresMore(before(all), now(all)).scores?.[0]).toMatchObject({
      fixed: [1, 0],
      shared: [-1],
    });
    const none = added({ brood: null });
    expect(scoresMore(before(none), now(none)).scores?.[0]).toMatchObject({ shared: [null] });
  });

  it('have numbers of another trait from the mean of the model before', () => {
    const all = added({});
    const with1 = (values: number[], mean: number): Partial<MeritTask> => ({
      numbers: [{ name: 'length', values: Float64Array.from(values), mean }],
    });
    const was = taskOf(all, [1, 2], with1([-2, 2], 40));
    const is = taskOf(all, [0, 1, 2], with1([4, -4, 0], 42));
    expect(scoresMore(was, is).scores?.[0]?.fixed).toEqual([1, 30, 6]);
    // One that was not scored stands at the mean.
    const none = taskOf(all, [0, 1, 2], with1([0, -3, 3], 41));
    expect(scoresMore(was, none).scores?.[0]?.fixed).toEqual([1, 30, 0]);
    expect(scoresMore(taskOf(all, [1, 2]), is).whyNot).toContain('has changed: length');
  });

  it('are none of a level, a part or a column that the model did not have', () => {
    const level = added({ sex: 'unsexed' });
    expect(scoresMore(before(level), now(level)).whyNot).toContain('“sex” had no score like it');
    const all = added({});
    for (const [change, why] of [
      [{ looks: true }, 'looked at again for the first time'],
      [{ age: null }, 'changed: age'],
      [{ shared: [] }, 'changed: brood'],
      [{ groups: { names: ['line A', 'line B'], groupOf: new Int32Array(9) } }, 'Another line'],
    ] as const) {
      const { scores, whyNot } = scoresMore(before(all), taskOf(all, [0, 1, 2], change));
      expect(scores).toBeNull();
      expect(whyNot).toContain(why);
    }
  });

  it('are none where two share a brood that was not met, or are of one fish', () => {
    const both = (told: Partial<Told>) => [{ ...two, fish: 3, ...told }, ...added(told)];
    const shared = both({ brood: 'A' });
    expect(scoresMore(taskOf(shared, [2, 3]), taskOf(shared, [0, 1, 2, 3])).whyNot).toContain(
      'first of one brood',
    );
    const apart = both({});
    expect(scoresMore(taskOf(apart, [2, 3]), taskOf(apart, [0, 1, 2, 3])).scores).toHaveLength(2);
    const same = both({ fish: 3 });
    expect(scoresMore(taskOf(same, [2, 3]), taskOf(same, [0, 1, 2, 3])).whyNot).toContain(
      'scored more than once',
    );
  });
});

describe('the last answer with scores more', () => {
  it('has values moved, errors and bands narrower about them, and no advice to score what is scored', () => {
    const values = {
      ...{ value: [2, 4], standardError: [1, 2], accuracy: [0.6, 0] },
      bands: [1, 3, 0, 5, -1, 6, 3, 5, 2, 6, 1, 7],
    };
    const linear = { values } as unknown as ModelAnswer;
    const last = {
      ...{ linear, shown: 'linear' },
      worth: [5, 7].map((fish) => ({ fish, errorBefore: 1, errorAfter: 1 })),
    } as unknown as MeritAnswer;
    const by = { value: Float64Array.of(1, 0), error: Float64Array.of(0.5, 1) };
    const { task } = taskOf([one], [0]);
    const after = withScoresMore(last, { linear: by, threshold: null }, task);
    const ofGrades = { ...last, threshold: linear, linear: null };
    const graded = withScoresMore(ofGrades, { linear: null, threshold: by }, task);
    expect(graded.threshold?.values).toEqual(after.linear?.values);
    expect(graded.linear).toBeNull();
    expect(after.worth.map(({ fish }) => fish)).toEqual([7]);
    expect(after.linear?.values).toEqual({
      ...{ value: [3, 4], standardError: [0.5, 2] },
      accuracy: [expect.closeTo(Math.sqrt(1 - 0.64 / 4), 8), 0],
      bands: [2.5, 3.5, 2, 4.5, 1.5, 5, 3, 5, 2, 6, 1, 7],
    });
  });
});
