import type { OneScore } from '@linewright/merit';
import type { LookRow } from '../stock/merit-rows.js';
import { meanAge } from './build-task.js';
import { short } from './linear-model.js';
import type { MeritAnswer, ModelAnswer, ValuesAnswer } from './merit-answer.js';
import type { LevelColumn, MeritTask } from './merit-task.js';

/** What some scores more do to the value of each fish, at the shares of the last solution; by place in the pedigree. */
export interface ValuesMoved {
  /** By how much values rise, in the trait's unit. */
  readonly value: Float64Array;
  /** What is left of their standard errors, 0 to 1. */
  readonly error: Float64Array;
}

/** The same by each model of the last answer; null for one that it has not. */
export interface Moved {
  readonly linear: ValuesMoved | null;
  readonly threshold: ValuesMoved | null;
}

/** A trait's task with the looks that its rows are. */
export interface TaskWithLooks {
  readonly task: MeritTask;
  readonly looksTaken: readonly LookRow[];
}

/** The looks without those recorded last. */
export const looksBefore = (looks: readonly LookRow[], more: number): LookRow[] => {
  const newest = [...looks].sort((a, b) => b.recordedAt - a.recordedAt).slice(0, more);
  const added = new Set(newest.map(({ id }) => id));
  return looks.filter(({ id }) => !added.has(id));
};

/**
 * The scores that came to a task, as rows of the model before; null where they made it another model: a column or a level that it did not
 * have, or two looks that share what it has not met.
 */
export const scoresMore = (before: TaskWithLooks, now: TaskWithLooks): OneScore[] | null => {
  if (shapeOf(before.task) !== shapeOf(now.task)) return null;
  const known = new Set(before.looksTaken.map(({ id }) => id));
  const added = now.looksTaken.flatMap(({ id }, row) => (known.has(id) ? [] : [row]));
  const { task } = now;
  if (new Set(added.map((row) => task.fish[row])).size < added.length) return null;
  const agesAround = meanAge(before.looksTaken.map(({ ageDays }) => ageDays));
  const unmet = new Set<string>();
  let fits = true;
  const scores = added.map((row): OneScore => {
    const fixed = task.fixed.map((column, k) => levelIn(before.task.fixed[k]!, column, row) ?? -1);
    if (fixed.some((level) => level < 0)) fits = false;
    const numbers = task.numbers.map(({ values, mean }, k) =>
      // At the mean stand those that were not scored: they move with it.
      values[row] === 0 ? 0 : values[row]! + mean - before.task.numbers[k]!.mean,
    );
    const age = now.looksTaken[row]!.ageDays;
    const shared = task.shared.map((column, k) => {
      const level = levelIn(before.task.shared[k]!, column, row);
      if (level !== -1) return level;
      const name = `${k} ${column.codes[row]}`;
      if (unmet.has(name)) fits = false;
      unmet.add(name);
      return level;
    });
    return {
      ...{ fish: task.fish[row]!, value: task.values[row]! },
      fixed: [
        ...fixed,
        ...(task.age === null ? [] : [age === null ? 0 : age - agesAround]),
        ...numbers,
      ],
      shared,
    };
  });
  return fits ? scores : null;
};

/** Which columns and groups a model has. */
const shapeOf = ({ fixed, age, numbers, shared, looks, groups }: MeritTask): string =>
  JSON.stringify([
    fixed.map(({ name }) => name),
    age === null,
    numbers.map(({ name }) => name),
    shared.map(({ name }) => name),
    looks,
    groups?.names ?? null,
  ]);

/** The level of a row in the column as it was: -1 when it was not met, null where the row has none. */
const levelIn = (before: LevelColumn, now: LevelColumn, row: number): number | null => {
  const code = now.codes[row]!;
  return code < 0 ? null : before.levels.indexOf(now.levels[code]!);
};

/** The last answer with some scores more taken in: values and their errors move, heritability and all else stay. */
export const withScoresMore = (
  last: MeritAnswer,
  moved: Moved,
  { unscored }: Pick<MeritTask, 'unscored'>,
): MeritAnswer => {
  const open = new Set(unscored);
  const taken = (model: ModelAnswer | null, by: ValuesMoved | null): ModelAnswer | null =>
    model === null || by === null ? model : { ...model, values: valuesMoved(model.values, by) };
  return {
    ...last,
    linear: taken(last.linear, moved.linear),
    threshold: taken(last.threshold, moved.threshold),
    worth: last.worth.filter(({ fish }) => open.has(fish)),
  };
};

const valuesMoved = (
  { value, standardError, accuracy, bands }: ValuesAnswer,
  moved: ValuesMoved,
): ValuesAnswer => {
  const perFish = bands.length / value.length;
  return {
    value: value.map((middle, i) => short(middle + moved.value[i]!)),
    standardError: standardError.map((error, i) => short(error * moved.error[i]!)),
    accuracy: accuracy.map((known, i) => {
      const unknown = (1 - known ** 2) * moved.error[i]! ** 2;
      return short(Math.sqrt(Math.max(0, 1 - unknown)));
    }),
    bands: bands.map((bound, k) => {
      const i = Math.floor(k / perFish);
      return short(value[i]! + moved.value[i]! + (bound - value[i]!) * moved.error[i]!);
    }),
  };
};
