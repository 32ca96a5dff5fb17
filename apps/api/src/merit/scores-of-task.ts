import { type AnimalScores, type FounderGroups, groupsOfFounders } from '@linewright/merit';
import { type Pedigree, pedigreeFromArrays } from '@linewright/pedigree';
import type { LevelColumn, MeritTask } from './merit-task.js';

export const pedigreeOfTask = ({ sire, dam, hidden }: MeritTask): Pedigree =>
  pedigreeFromArrays(sire, dam, undefined, hidden);

const groupsOf = (pedigree: Pedigree, { groups }: MeritTask): FounderGroups | null =>
  groups === null
    ? null
    : groupsOfFounders(
        pedigree,
        groups.names,
        groups.groupOf.map((group) => (group < groups.names.length ? group : -1)),
      );

/** A task as the library takes it: one row a look. */
export const scoresOfTask = (
  task: MeritTask,
  pedigree: Pedigree = pedigreeOfTask(task),
): AnimalScores => {
  const groups = groupsOf(pedigree, task);
  return {
    pedigree,
    fish: task.fish,
    traits: [{ name: task.trait, values: task.values }],
    fixed: [
      ...task.fixed.map((column) => ({ kind: 'classes' as const, ...column })),
      ...(task.age === null ? [] : [{ kind: 'covariate' as const, name: 'age', values: task.age }]),
      ...task.numbers.map((column) => ({ kind: 'covariate' as const, ...column })),
    ],
    shared: task.shared,
    permanent: task.looks,
    ...(groups !== null && { groups }),
  };
};

/** A column for some of its rows, with the levels that are left. */
export const columnOfRows = (
  { name, levels, codes }: LevelColumn,
  rows: ArrayLike<number>,
): LevelColumn => {
  const kept = Int32Array.from(rows, (row) => codes[row]!);
  const seen = [...new Set(kept)].filter((code) => code >= 0).sort((a, b) => a - b);
  const place = new Map(seen.map((code, k) => [code, k]));
  return {
    name,
    levels: seen.map((code) => levels[code]!),
    codes: kept.map((code) => place.get(code) ?? -1),
  };
};

/** Mean of the looks of each fish, `NaN` where it was not scored. */
export const meanLooks = ({
  sire,
  fish,
  values,
}: Pick<MeritTask, 'sire' | 'fish' | 'values'>): Float64Array => {
  const sum = new Float64Array(sire.length);
  const count = new Float64Array(sire.length);
  fish.forEach((index, row) => {
    sum[index]! += values[row]!;
    count[index]! += 1;
  });
  return sum.map((total, i) => (count[i]! > 0 ? total / count[i]! : NaN));
};

export interface Grid {
  readonly cells: number;
  /** At one heritability, at most. */
  readonly pointsOfOthers: number;
}

const linearGrids: readonly Grid[] = [
  { cells: 20, pointsOfOthers: 30 },
  { cells: 20, pointsOfOthers: 15 },
  { cells: 16, pointsOfOthers: 9 },
  { cells: 10, pointsOfOthers: 5 },
];
const thresholdGrids: readonly Grid[] = [
  { cells: 12, pointsOfOthers: 15 },
  { cells: 12, pointsOfOthers: 9 },
  { cells: 10, pointsOfOthers: 5 },
];
/** Values held while a grid is gone over, fish times points: 300 MB. */
const MOST_VALUES = 12_000_000;

/** Random terms beside the breeding value. */
export const othersOf = ({ shared, looks }: MeritTask): number => shared.length + (looks ? 1 : 0);

/** Points of a grid that fit in memory: fewer where there are more fish. */
export const gridFor = (task: MeritTask, kind: 'linear' | 'threshold'): Grid => {
  const most = MOST_VALUES / Math.max(1, task.sire.length);
  const tried = kind === 'linear' ? linearGrids : thresholdGrids;
  const points = ({ cells, pointsOfOthers }: Grid): number =>
    othersOf(task) === 0 ? cells : cells * pointsOfOthers;
  return tried.find((grid) => points(grid) <= most) ?? tried.at(-1)!;
};

/** How many points are about gone over: they lie denser only where scores tell the shares sharply. */
export const pointsOf = ({ cells, pointsOfOthers }: Grid, others: number): number =>
  others === 0 ? cells : cells * Math.min(pointsOfOthers, 6 + 6 * others);

export const hasClasses = ({ kind }: MeritTask): boolean => kind === 'yes_no' || kind === 'ordinal';

/** Generations that a line usually has. */
const GENERATIONS_OF_LINE = 5;

/** How much work a task is: fish times points of its grids, a point of the threshold model being some eight. */
export const workOfTask = (task: MeritTask): number => {
  const points = (kind: 'linear' | 'threshold'): number =>
    pointsOf(gridFor(task, kind), othersOf(task));
  const all = points('linear') + (hasClasses(task) ? 8 * points('threshold') : 0);
  // Generations of a line cost a solution each.
  const lines = GENERATIONS_OF_LINE * task.lines.length;
  return task.fish.length === 0 ? 0 : task.sire.length * (all + lines);
};
