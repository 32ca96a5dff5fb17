import {
  animalModel,
  inbreedingOfMeasure,
  type MeasureDepression,
  MeritError,
  type RandomTerm,
} from '@linewright/merit';
import type { Refusal } from './merit-answer.js';
import type { MeritTask } from './merit-task.js';
import { scoresOfTask } from './scores-of-task.js';

/** What inbreeding does to something measured. Written as JSON. */
export interface MeasureLoad {
  readonly changes: readonly MeasureChange[];
  readonly refusal: Refusal | null;
}

export interface MeasureChange {
  readonly column: 'young' | 'dam';
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

const varying = (young: Float64Array, dam: Float64Array) =>
  [
    { name: 'young', values: young },
    { name: 'dam', values: dam },
  ].filter(({ name, values }) => name === 'young' || new Set(values).size > 1);

const orRefusal = (run: () => readonly MeasureChange[]): MeasureLoad => {
  try {
    return { changes: run(), refusal: null };
  } catch (error) {
    if (!(error instanceof MeritError)) throw error;
    return { changes: [], refusal: { code: error.code, message: error.message } };
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
export const sizesOfBroods = ({ name, counts, young, dam, damOf }: CountedSizes): MeasureLoad =>
  orRefusal(() => {
    const dams = [...new Set(damOf)];
    const repeated = dams.length > 1 && dams.length < damOf.length;
    const level = Int32Array.from(damOf, (id) => dams.indexOf(id));
    const shared: RandomTerm[] = repeated
      ? [{ name: 'dam of the brood', levels: dams.length, slots: [{ trait: 0, level }] }]
      : [];
    return inbreedingOfMeasure({
      name,
      values: Float64Array.from(counts, Math.log),
      inbreeding: varying(Float64Array.from(young), Float64Array.from(dam)),
      random: shared,
      broods: counts.length,
    }).map(toChange(Math.expm1));
  });

export const allSizesOfBroods = (all: readonly CountedSizes[]): MeasureLoad[] =>
  all.map(sizesOfBroods);

/** A measured trait: beside season, sex and age, breeding values, broods and repeated looks. */
export const sizesOfFish = ({ task, young, dam, broods }: MeasuredSizes): MeasureLoad =>
  orRefusal(() => {
    const { model } = animalModel(scoresOfTask(task));
    return inbreedingOfMeasure({
      name: task.trait,
      values: task.values,
      inbreeding: varying(young, dam),
      fixed: model.fixed,
      random: model.random,
      broods,
    }).map(toChange((slope) => slope));
  });
