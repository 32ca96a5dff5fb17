import { type Pedigree, subset, withAncestors } from '@linewright/pedigree';
import type { LevelColumn, MeritTask } from './merit-task.js';
import { columnOfRows } from './scores-of-task.js';

const severalLevels = ({ levels }: LevelColumn): boolean => levels.length > 1;

/** A task of some of its rows alone, with the ancestors of their fish; `whole` is the pedigree that the task counts fish in. */
export const taskOfRows = (
  task: MeritTask,
  whole: Pedigree,
  rows: readonly number[],
): MeritTask => {
  const fish = rows.map((row) => task.fish[row]!);
  const pedigree = subset(whole, withAncestors(whole, fish));
  const column = (one: LevelColumn): LevelColumn => columnOfRows(one, rows);
  return {
    ...task,
    sire: pedigree.sire,
    dam: pedigree.dam,
    ...(pedigree.hidden !== undefined && { hidden: pedigree.hidden }),
    fish: Int32Array.from(fish, (i) => pedigree.indexOf(whole.ids[i]!)),
    values: Float64Array.from(rows, (row) => task.values[row]!),
    fixed: task.fixed.map(column).filter(severalLevels),
    age: task.age === null ? null : Float64Array.from(rows, (row) => task.age![row]!),
    shared: task.shared.map(column).filter(severalLevels),
    looks: task.looks && new Set(fish).size < fish.length,
    groups: null,
    lines: [],
    unscored: new Int32Array(0),
  };
};
