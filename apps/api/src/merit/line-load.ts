import { inbreedingLoad, type LoadAnswer, MeritError } from '@linewright/merit';
import type { Refusal } from './merit-answer.js';

/** Counts of a line's broods at the two ends of a stage, with the inbreeding behind them. */
export interface StageCounts {
  readonly survivors: readonly number[];
  readonly counted: readonly number[];
  readonly young: readonly number[];
  readonly dam: readonly number[];
  readonly recent: readonly number[];
  readonly old: readonly number[];
}

/** What inbreeding costs at a stage; by age of the inbreeding beside it, where the broods tell the two apart. */
export interface StageLoad {
  readonly whole: LoadAnswer | null;
  readonly wholeRefusal: Refusal | null;
  readonly byAge: LoadAnswer | null;
}

const varies = (values: readonly number[]): boolean => new Set(values).size > 1;

const columnsThatVary = (columns: readonly (readonly [string, readonly number[]])[]) =>
  columns.filter(([, values]) => varies(values)).map(([name, values]) => ({ name, values }));

/** The load of each stage in its turn. */
export const loadsOf = (stages: readonly StageCounts[]): StageLoad[] => stages.map(loadOf);

const loadOf = ({ survivors, counted, young, dam, recent, old }: StageCounts): StageLoad => {
  try {
    if (!varies(young))
      throw new MeritError(
        survivors.length < 3 ? 'MERIT_TOO_FEW' : 'MERIT_NO_VARIATION',
        survivors.length < 3
          ? `${survivors.length} broods were counted at both ends of this stage: count more.`
          : 'The young of all counted broods have the same F: there is nothing to compare.',
      );
    const inbreeding = columnsThatVary([
      ['young', young],
      ['dam', dam],
    ]);
    const whole = inbreedingLoad({ survivors, counted, inbreeding });
    const aged = columnsThatVary([
      ['recent', recent],
      ['old', old],
      ['dam', dam],
    ]);
    const both = varies(recent) && varies(old);
    return {
      whole,
      wholeRefusal: null,
      byAge: both ? orNull(() => inbreedingLoad({ survivors, counted, inbreeding: aged })) : null,
    };
  } catch (error) {
    if (!(error instanceof MeritError)) throw error;
    return {
      whole: null,
      wholeRefusal: { code: error.code, message: error.message },
      byAge: null,
    };
  }
};

const orNull = (run: () => LoadAnswer): LoadAnswer | null => {
  try {
    return run();
  } catch (error) {
    if (error instanceof MeritError) return null;
    throw error;
  }
};
