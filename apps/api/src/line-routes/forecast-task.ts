import {
  fewBest,
  Forecast,
  type LineBelief,
  type LineForecast,
  type LinePurpose,
  planned,
  type Strategy,
  type WatchedAllele,
} from '@linewright/mating';

/** How many sires, dams and broods the line's last generation came from. */
export interface BredSoFar {
  readonly sires: number;
  readonly dams: number;
  readonly broods: number;
}

export interface ForecastTask {
  readonly belief: LineBelief;
  readonly purpose: Pick<LinePurpose, 'traits' | 'looks'>;
  readonly alleles: readonly WatchedAllele[];
  readonly generations: number;
  readonly broods: number;
  readonly broodsPerFish: number;
  readonly fryPerBrood: number;
  readonly kinshipRise: number | null;
  /** `null`: no brood of the line has both parents on record. */
  readonly soFar: BredSoFar | null;
  readonly seed: number;
}

export interface ForecastAnswer {
  readonly plan: LineForecast;
  readonly soFar: LineForecast | null;
}

/** Lines simulated of either; fewer where each is much work, and told. */
const MOST_LINES = 300;
const LEAST_LINES = 60;
/** Broods times young times generations of all lines, about three seconds. */
const MOST_WORK = 600_000;
export const KEPT_PER_BROOD = 2;
/** Broods a generation that are simulated at most. */
export const MOST_BROODS = 12;

/** How many lines are simulated. */
export const linesSimulated = ({
  broods,
  fryPerBrood,
  generations,
}: Pick<ForecastTask, 'broods' | 'fryPerBrood' | 'generations'>): number =>
  Math.max(
    LEAST_LINES,
    Math.min(MOST_LINES, Math.floor(MOST_WORK / (broods * fryPerBrood * generations))),
  );

/** The line under the plan and as it was bred so far. */
export const forecastOf = (task: ForecastTask): ForecastAnswer => {
  const run = (strategy: () => Strategy, broods: number): LineForecast => {
    const forecast = new Forecast({ ...task, broods, strategy, keptPerBrood: KEPT_PER_BROOD });
    forecast.advance(linesSimulated({ ...task, broods }));
    return forecast.standing();
  };
  const { soFar } = task;
  return {
    plan: run(() => planned, task.broods),
    soFar: soFar === null ? null : run(() => fewBest(soFar.sires, soFar.dams), soFar.broods),
  };
};
