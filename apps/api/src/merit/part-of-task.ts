import { type AnimalScores, groupShares, type PartOfStock } from '@linewright/merit';
import { subset } from '@linewright/pedigree';
import type { LevelColumn, MeritTask } from './merit-task.js';
import { columnOfRows } from './scores-of-task.js';

/** Scored fish of the part in which variances are worked out when the whole is too large, and generations of ancestors taken along. */
export const PART = { most: 2_000, generations: 3 };

/** What was worked out from a part, in a sentence for the screen. */
export const partText = ({ scoredFish, broods }: PartOfStock, what: string): string =>
  `There are too many fish to work all out at once. ${what} is worked out from ${scoredFish.toLocaleString('en-GB')} scored fish of ${broods.toLocaleString('en-GB')} broods, which chance chose, with ${PART.generations} generations of their ancestors. The values of all fish are worked out with that.`;

/** The task of a part alone. A fish whose parents were left out is of the line that most of it comes from. */
export const taskOfPart = (
  task: MeritTask,
  { pedigree: whole, groups }: AnimalScores,
  { rows, members }: PartOfStock,
): MeritTask => {
  const pedigree = subset(whole, members);
  const at = new Map(Array.from(members, (i, k) => [i, k]));
  const pick = (one: LevelColumn): LevelColumn => columnOfRows(one, rows);
  const shares = groups === undefined ? null : groupShares(whole, groups);
  return {
    ...task,
    sire: pedigree.sire,
    dam: pedigree.dam,
    ...(pedigree.hidden !== undefined && { hidden: pedigree.hidden }),
    fish: Int32Array.from(rows, (row) => at.get(task.fish[row]!)!),
    values: Float64Array.from(rows, (row) => task.values[row]!),
    fixed: task.fixed.map(pick),
    age: task.age === null ? null : Float64Array.from(rows, (row) => task.age![row]!),
    numbers: task.numbers.map(({ name, values, mean }) => ({
      ...{ name, mean },
      values: Float64Array.from(rows, (row) => values[row]!),
    })),
    shared: task.shared.map(pick),
    groups:
      task.groups === null || shares === null
        ? null
        : {
            names: task.groups.names,
            groupOf: Int32Array.from(members, (i) => mostOf(shares, i, task.groups!.names.length)),
          },
    lines: [],
    unscored: new Int32Array(0),
  };
};

const mostOf = (shares: Float64Array, fish: number, count: number): number => {
  const own = shares.subarray(fish * count, (fish + 1) * count);
  return own.indexOf(Math.max(...own));
};
