import {
  costOfInbreeding,
  inbreedingLoad,
  type InbreedingLoad,
  MeritError,
} from '@linewright/merit';
import type { LoadColumn } from './line-load.model.js';
import type { Refusal } from './merit-answer.js';
import { orNone } from './or-none.js';

/** Counts of a line's broods at the two ends of a stage, with the inbreeding behind them. */
export interface StageCounts {
  readonly survivors: readonly number[];
  readonly counted: readonly number[];
  readonly young: readonly number[];
  readonly dam: readonly number[];
  readonly recent: readonly number[];
  readonly old: readonly number[];
  /** Line of each brood by number, where broods of several are taken together: each line then has a level of its own. */
  readonly lines?: readonly number[];
}

/** What inbreeding costs by one of its coefficients; null for what has no bound. */
export interface CostAnswer {
  readonly column: LoadColumn;
  readonly perGamete: number;
  readonly low: number | null;
  readonly high: number | null;
  readonly smallestDetectable: number | null;
  readonly verdict: InbreedingLoad['verdict'];
  readonly costOfSibMating: number;
}

/** What inbreeding costs at a stage; by age of the inbreeding beside it, where the broods tell the two apart. Written as JSON. */
export interface StageLoad {
  readonly costs: readonly CostAnswer[];
  readonly byAge: readonly CostAnswer[];
  readonly survivalWithout: number | null;
  readonly betweenBroods: number | null;
  readonly refusal: Refusal | null;
}

const SIB_MATING = 0.25;

const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);

const toCost = (load: InbreedingLoad): CostAnswer => ({
  column: load.name as LoadColumn,
  perGamete: load.perGamete,
  low: finite(load.interval.low),
  high: finite(load.interval.high),
  smallestDetectable: finite(load.smallestDetectable),
  verdict: load.verdict,
  costOfSibMating: costOfInbreeding(load.perGamete, SIB_MATING),
});

const varies = (values: readonly number[]): boolean => new Set(values).size > 1;

const columnsThatVary = (columns: readonly (readonly [string, readonly number[]])[]) =>
  columns.filter(([, values]) => varies(values)).map(([name, values]) => ({ name, values }));

/** The load of each stage in its turn. */
export const loadsOf = (stages: readonly StageCounts[]): StageLoad[] => stages.map(loadOf);

/** 0 and 1 for each line but the first. */
const levelsOfLines = (lines: readonly number[]): number[][] =>
  [...new Set(lines)].slice(1).map((line) => lines.map((one) => Number(one === line)));

const loadOf = (stage: StageCounts): StageLoad => {
  const { survivors, counted, young, dam, recent, old, lines = [] } = stage;
  const beside = levelsOfLines(lines);
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
    const whole = inbreedingLoad({ survivors, counted, inbreeding, beside });
    const aged = columnsThatVary([
      ['recent', recent],
      ['old', old],
      ['dam', dam],
    ]);
    const both = varies(recent) && varies(old);
    const apart = both
      ? orNone(() => inbreedingLoad({ survivors, counted, inbreeding: aged, beside }))
      : null;
    return {
      costs: whole.loads.map(toCost),
      byAge: (apart?.loads ?? []).map(toCost),
      survivalWithout: Math.exp(-Math.max(0, whole.withoutInbreeding)),
      betweenBroods: whole.betweenBroods,
      refusal: null,
    };
  } catch (error) {
    if (!(error instanceof MeritError)) throw error;
    return {
      ...{ costs: [], byAge: [], survivalWithout: null, betweenBroods: null },
      refusal: { code: error.code, message: error.message },
    };
  }
};
