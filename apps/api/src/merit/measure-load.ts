import { recentInbreeding } from '@linewright/kinship';
import {
  animalModel,
  inbreedingOfMeasure,
  type MeasureDepression,
  type MeasuredRows,
  MeritError,
  type RandomTerm,
  RECENT_GENERATIONS,
} from '@linewright/merit';
import type { LoadColumn } from './line-load.model.js';
import { short } from './linear-model.js';
import type { Refusal } from './merit-answer.js';
import type { MeritTask } from './merit-task.js';
import { orNone } from './or-none.js';
import { pedigreeOfTask, scoresOfTask } from './scores-of-task.js';

/** What inbreeding does to something measured. Written as JSON. */
export interface MeasureLoad {
  readonly changes: readonly MeasureChange[];
  /** Recent and old inbreeding apart; empty where they cannot be told apart. */
  readonly byAge: readonly MeasureChange[];
  /** The size without inbreeding of the young; null where there is no figure. */
  readonly level: number | null;
  /** Sizes by row, what else is known to move them taken off. */
  readonly sizes: readonly number[];
  readonly refusal: Refusal | null;
}

export interface MeasureChange {
  readonly column: LoadColumn;
  /** In a brood of full sibs of parents that are not inbred, F of 0.25: in the unit of the measure, or as a share of a count. */
  readonly atSibMating: number;
  readonly low: number;
  readonly high: number;
  /** The smallest, either way, that would have been seen. */
  readonly smallest: number;
  readonly verdict: MeasureDepression['verdict'];
}

/** A count a brood, with the F behind it and its dam by number. */
export interface CountedSizes {
  readonly name: string;
  readonly counts: readonly number[];
  readonly young: readonly number[];
  readonly dam: readonly number[];
  readonly recent: readonly number[];
  readonly old: readonly number[];
  readonly damOf: readonly number[];
}

/** A trait's looks with the F of each row's fish and of its dam. */
export interface MeasuredSizes {
  readonly task: MeritTask;
  readonly young: Float64Array;
  readonly dam: Float64Array;
  readonly broods: number;
}

const SIB_MATING = 0.25;

type Coefficients = readonly (readonly [LoadColumn, ArrayLike<number>])[];

const columnsOf = (given: Coefficients): MeasuredRows['inbreeding'] =>
  given.map(([name, values]) => ({ name, values: Float64Array.from(values) }));

const varies = (values: ArrayLike<number>): boolean => new Set(Array.from(values)).size > 1;

/** With the coefficient of the young whatever it is, so that it is told when it is the same for all. */
const wholeOf = (young: ArrayLike<number>, dam: ArrayLike<number>): Coefficients => [
  ['young', young],
  ...(varies(dam) ? [['dam', dam] as const] : []),
];

interface Told {
  /** What a change from F = 0 is told as. */
  readonly change: (change: number) => number;
  readonly size: (value: number) => number;
}

interface MeasuredParts {
  readonly rows: Omit<MeasuredRows, 'inbreeding'>;
  readonly young: ArrayLike<number>;
  readonly dam: ArrayLike<number>;
  readonly recent: ArrayLike<number>;
  readonly old: ArrayLike<number>;
}

/** Of the young and the dam, and of recent and old inbreeding of the young where the broods tell them apart. */
const measuredLoad = (parts: () => MeasuredParts, told: Told): MeasureLoad => {
  try {
    const { rows, young, dam, recent, old } = parts();
    const { changes, level, corrected } = inbreedingOfMeasure({
      ...rows,
      inbreeding: columnsOf(wholeOf(young, dam)),
    });
    const aged: Coefficients = [['recent', recent], ['old', old], ...wholeOf(young, dam).slice(1)];
    const apart =
      varies(recent) && varies(old)
        ? (orNone(() => inbreedingOfMeasure({ ...rows, inbreeding: columnsOf(aged) }))?.changes ??
          [])
        : [];
    return {
      changes: changes.map(toChange(told.change)),
      byAge: apart.map(toChange(told.change)),
      level: short(told.size(level)),
      sizes: Array.from(corrected, (value) => short(told.size(value))),
      refusal: null,
    };
  } catch (error) {
    if (!(error instanceof MeritError)) throw error;
    const refusal = { code: error.code, message: error.message };
    return { changes: [], byAge: [], level: null, sizes: [], refusal };
  }
};

const toChange =
  (told: (slope: number) => number) =>
  ({ name, slope, interval, smallestDetectable, verdict }: MeasureDepression): MeasureChange => ({
    column: name as MeasureChange['column'],
    atSibMating: told(SIB_MATING * slope),
    low: told(SIB_MATING * interval.low),
    high: told(SIB_MATING * interval.high),
    smallest: Math.abs(told(-SIB_MATING * smallestDetectable)),
    verdict,
  });

/** Brood sizes: their logarithm, so that a change is a share; broods of one dam share what she is. */
export const sizesOfBroods = ({ name, counts, damOf, ...inbreeding }: CountedSizes): MeasureLoad =>
  measuredLoad(
    () => {
      const dams = [...new Set(damOf)];
      const repeated = dams.length > 1 && dams.length < damOf.length;
      const level = Int32Array.from(damOf, (id) => dams.indexOf(id));
      const shared: RandomTerm[] = repeated
        ? [{ name: 'dam of the brood', levels: dams.length, slots: [{ trait: 0, level }] }]
        : [];
      const values = Float64Array.from(counts, Math.log);
      return { rows: { name, values, random: shared, broods: counts.length }, ...inbreeding };
    },
    { change: Math.expm1, size: Math.exp },
  );

export const allSizesOfBroods = (all: readonly CountedSizes[]): MeasureLoad[] =>
  all.map(sizesOfBroods);

/** A measured trait: beside season, sex and age, breeding values, broods and repeated looks. */
export const sizesOfFish = ({ task, young, dam, broods }: MeasuredSizes): MeasureLoad =>
  measuredLoad(
    () => {
      const { model } = animalModel(scoresOfTask(task));
      const { trait: name, values } = task;
      const { fixed, random } = model;
      return { rows: { name, values, fixed, random, broods }, young, dam, ...agesOf(task) };
    },
    { change: (change) => change, size: (value) => value },
  );

/** Recent and old inbreeding of the fish of each row. */
const agesOf = (task: MeritTask): { recent: Float64Array; old: Float64Array } => {
  const fish = [...new Set(task.fish)];
  const split = recentInbreeding(pedigreeOfTask(task), fish, RECENT_GENERATIONS);
  const of = new Map(fish.map((i, k) => [i, split[k]!]));
  return {
    recent: Float64Array.from(task.fish, (i) => of.get(i)!.recent),
    old: Float64Array.from(task.fish, (i) => Math.max(0, of.get(i)!.old)),
  };
};
