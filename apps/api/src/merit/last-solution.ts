import type { OneScore } from '@linewright/merit';
import type { LookRow } from '../stock/merit-rows.js';
import { meanAge } from './build-task.js';
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

/** Scores as rows of the model before, or why they made it another model, in a sentence. */
export type MoreOrWhyNot =
  | { readonly scores: readonly OneScore[]; readonly whyNot: null }
  | { readonly scores: null; readonly whyNot: string };

const not = (whyNot: string): MoreOrWhyNot => ({ scores: null, whyNot });

/**
 * The scores that came to a task, as rows of the model before; why not where they made it another model: a column or a level that it did not
 * have, or two looks that share what it has not met.
 */
export const scoresMore = (before: TaskWithLooks, now: TaskWithLooks): MoreOrWhyNot => {
  const changed = changedPart(before.task, now.task);
  if (changed !== null) return not(changed);
  const known = new Set(before.looksTaken.map(({ id }) => id));
  const added = now.looksTaken.flatMap(({ id }, row) => (known.has(id) ? [] : [row]));
  const { task } = now;
  if (new Set(added.map((row) => task.fish[row])).size < added.length)
    return not('One fish was scored more than once since.');
  const unmet = unmetLevel(before.task, task, added);
  if (unmet !== null) return not(unmet);
  const agesAround = meanAge(before.looksTaken.map(({ ageDays }) => ageDays));
  const scores = added.map((row): OneScore => {
    const fixed = task.fixed.map((column, k) => levelIn(before.task.fixed[k]!, column, row) ?? -1);
    const numbers = task.numbers.map(({ values, mean }, k) =>
      // At the mean stand those that were not scored: they move with it.
      values[row] === 0 ? 0 : values[row]! + mean - before.task.numbers[k]!.mean,
    );
    const age = now.looksTaken[row]!.ageDays;
    return {
      ...{ fish: task.fish[row]!, value: task.values[row]! },
      fixed: [
        ...fixed,
        ...(task.age === null ? [] : [age === null ? 0 : age - agesAround]),
        ...numbers,
      ],
      shared: task.shared.map((column, k) => levelIn(before.task.shared[k]!, column, row)),
    };
  });
  return { scores, whyNot: null };
};

/** The first part of a model that is not as it was, in a sentence; null where all are. */
const changedPart = (before: MeritTask, now: MeritTask): string | null => {
  if (before.looks !== now.looks)
    return 'A fish was looked at again for the first time: what stays with a fish from look to look is set apart from now on.';
  const namesOf = (columns: readonly { readonly name: string }[]): string[] =>
    columns.map(({ name }) => name);
  const columns = (task: MeritTask): string[] => [
    ...namesOf([...task.fixed, ...task.numbers, ...task.shared]),
    ...(task.age === null ? [] : ['age']),
  ];
  const [was, is] = [columns(before), columns(now)];
  const other = is.find((name) => !was.includes(name)) ?? was.find((name) => !is.includes(name));
  if (other !== undefined || was.length !== is.length)
    return `What can be set apart has changed: ${other ?? 'a part of the model'}.`;
  if (JSON.stringify(before.groups?.names) !== JSON.stringify(now.groups?.names))
    return 'Another line has enough scored fish now to start from a mean of its own.';
  return null;
};

/** Where new rows stand in a level that the model has not met, in a sentence; one row alone may be the first of a shared level. */
const unmetLevel = (before: MeritTask, now: MeritTask, rows: readonly number[]): string | null => {
  for (const [k, column] of now.fixed.entries())
    if (rows.some((row) => (levelIn(before.fixed[k]!, column, row) ?? -1) < 0))
      return `It is the first score of its kind: “${column.name}” had no score like it.`;
  for (const [k, column] of now.shared.entries()) {
    const unmet = rows.filter((row) => levelIn(before.shared[k]!, column, row) === -1);
    if (new Set(unmet.map((row) => column.codes[row])).size < unmet.length)
      return `Several of the newest scores are the first of one ${column.name}.`;
  }
  return null;
};

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

/** It is not stored, so that its digits need not be cut. */
const valuesMoved = (
  { value, standardError, accuracy, bands }: ValuesAnswer,
  moved: ValuesMoved,
): ValuesAnswer => {
  const perFish = bands.length / value.length;
  return {
    value: value.map((middle, i) => middle + moved.value[i]!),
    standardError: standardError.map((error, i) => error * moved.error[i]!),
    accuracy: accuracy.map((known, i) => {
      const unknown = (1 - known ** 2) * moved.error[i]! ** 2;
      return Math.sqrt(Math.max(0, 1 - unknown));
    }),
    bands: bands.map((bound, k) => {
      const i = Math.floor(k / perFish);
      return value[i]! + moved.value[i]! + (bound - value[i]!) * moved.error[i]!;
    }),
  };
};
