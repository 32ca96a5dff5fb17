import {
  beliefOfFish,
  Forecast,
  type LineBelief,
  type LineForecast,
  type LinePurpose,
  type OutcrossAdvice,
  type OutcrossFish,
  outcrossRoute,
  planned,
  plannedWithOutcross,
  type RouteGoal,
  type RouteLengths,
  RouteSearch,
  type RouteStanding,
  type Strategy,
  type WatchedAllele,
  whenToOutcross,
} from '@linewright/mating';
import { KEPT_PER_BROOD, linesSimulated } from './forecast-task.js';

/** What is simulated of an outcross. Everything in it can pass between threads. */
export interface OutcrossTask {
  /** The fish of the line and the partner. */
  readonly belief: LineBelief;
  readonly fish: OutcrossFish;
  readonly purpose: Pick<LinePurpose, 'traits' | 'looks' | 'ceiling'>;
  readonly alleles: readonly WatchedAllele[];
  /** `null`: there is no target, or no chance is asked for. */
  readonly goal: RouteGoal | null;
  readonly lengths: RouteLengths;
  /** Generations of the forecast; `null`: the line cannot go on alone. */
  readonly generations: number | null;
  readonly broods: number;
  readonly broodsPerFish: number;
  readonly fryPerBrood: number;
  readonly kinshipRise: number | null;
  readonly seed: number;
}

/** What was simulated; chance and forecast are null until then, and where the task has none. */
export interface OutcrossAnswer {
  readonly chance: RouteStanding | null;
  readonly forecast: OutcrossForecastAnswer | null;
}

export interface OutcrossForecastAnswer {
  readonly without: LineForecast;
  readonly withIt: LineForecast;
  readonly advice: OutcrossAdvice;
}

const COURSES = 2_000;
/** Lines between two shares of progress. */
const AT_ONCE = 10;
/** Share of the work that the chance is, about. */
const CHANCE_PART = 0.15;

export interface OutcrossWork {
  readonly onProgress: (share: number) => void;
  readonly soFar: (answer: OutcrossAnswer) => void;
}

/** The chance first, then the line without the outcross and with it, from the same seed. */
export const runOutcrossTask = (
  task: OutcrossTask,
  { onProgress, soFar }: OutcrossWork,
): OutcrossAnswer => {
  const chance = chanceOf(task, (share) => onProgress(share * CHANCE_PART));
  soFar({ chance, forecast: null });
  const forecast = forecastsOf(task, (share) =>
    onProgress(CHANCE_PART + share * (1 - CHANCE_PART)),
  );
  return { chance, forecast };
};

const chanceOf = (
  { goal, belief, fish, lengths, ...task }: OutcrossTask,
  onProgress: (share: number) => void,
): RouteStanding | null => {
  if (goal === null) return null;
  const isMale = (at: number): boolean => belief.sex[at] === 'male';
  const { partner: other, mate: line, back } = fish;
  const route = outcrossRoute({ line, other, back }, isMale, lengths);
  const search = new RouteSearch({ ...task, belief, goal, most: COURSES }, [route]);
  while (search.advance()) onProgress(search.progress);
  return search.standing()[0]!;
};

const forecastsOf = (
  { generations, ...task }: OutcrossTask,
  onProgress: (share: number) => void,
): OutcrossForecastAnswer | null => {
  if (generations === null) return null;
  const { belief, fish, purpose } = task;
  const lines = linesSimulated({ ...task, generations });
  const run = (of: LineBelief, strategy: () => Strategy, before: number): LineForecast => {
    const settings = { ...task, generations, belief: of, strategy, keptPerBrood: KEPT_PER_BROOD };
    const forecast = new Forecast(settings);
    while (forecast.simulations < lines) {
      forecast.advance(Math.min(AT_ONCE, lines - forecast.simulations));
      onProgress((before + forecast.simulations / lines) / 2);
    }
    return forecast.standing();
  };
  const line = [...belief.fish.keys()].filter((at) => at !== fish.partner);
  const without = run(beliefOfFish(belief, line), () => planned, 0);
  const withIt = run(belief, () => plannedWithOutcross(fish, belief, task.kinshipRise), 1);
  const advice = whenToOutcross(without, withIt, {
    ceiling: purpose.ceiling,
    aims: purpose.traits,
  });
  return { without, withIt, advice };
};
