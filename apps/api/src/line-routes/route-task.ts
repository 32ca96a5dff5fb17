import {
  type LineBelief,
  type LinePurpose,
  possibleRoutes,
  type RouteGoal,
  type RouteLengths,
  RouteSearch,
  type RouteStanding,
} from '@linewright/mating';

/** What a search starts from. Everything in it can pass between threads. */
export interface RouteTask {
  readonly belief: LineBelief;
  readonly ofLine: Uint8Array;
  readonly purpose: Pick<LinePurpose, 'traits' | 'looks' | 'ceiling'>;
  readonly goal: RouteGoal;
  readonly lengths: RouteLengths;
  readonly broods: number;
  readonly fryPerBrood: number;
  readonly seed: number;
}

/** What a search has found so far; fish by id, so that it can be stored. */
export interface RouteAnswer {
  readonly fish: readonly string[];
  readonly routes: readonly RouteStanding[];
  readonly pairs: number;
  readonly pairsTried: number;
  readonly outcrosses: number;
  readonly outcrossesTried: number;
  readonly overCeiling: number;
  readonly simulations: number;
}

/** Young drawn in all, about: some ten seconds. */
const MOST_YOUNG = 60_000_000;
/** Of one route: genotypes are drawn together so many times beforehand. */
export const MOST_SIMULATIONS = 2_000;
/** Between two answers on the way, ms. */
const EVERY = 700;

export interface RouteWork {
  readonly onProgress: (share: number) => void;
  readonly soFar: (answer: RouteAnswer) => void;
}

interface Begun {
  readonly routes: number;
  /** Null where no route can be made. */
  readonly search: RouteSearch | null;
  readonly answer: () => RouteAnswer;
}

const begin = (task: RouteTask): Begun => {
  const { routes, ...counts } = possibleRoutes(task);
  const { fish } = task.belief;
  const none = { fish, routes: [], ...counts, simulations: 0 };
  if (routes.length === 0) return { routes: 0, search: null, answer: () => none };
  const young = routes.length * task.lengths.generations * task.fryPerBrood;
  const most = Math.max(200, Math.min(MOST_SIMULATIONS, Math.floor(MOST_YOUNG / young)));
  const search = new RouteSearch({ ...task, most }, routes);
  const answer = (): RouteAnswer => {
    const standing = search.standing();
    const simulations = standing.reduce((sum, one) => sum + one.simulations, 0);
    return { fish, routes: standing, ...counts, simulations };
  };
  return { routes: routes.length, search, answer };
};

/** Each route tried a few times: the same that a search to the end tells first. */
export const firstRoutes = (task: RouteTask): RouteAnswer => {
  const { routes, search, answer } = begin(task);
  for (let turn = 0; turn < routes; turn++) search?.advance();
  return answer();
};

/** Searches to the end, telling now and then how things stand. */
export const runRouteTask = (task: RouteTask, { onProgress, soFar }: RouteWork): RouteAnswer => {
  const { routes, search, answer } = begin(task);
  if (search === null) return answer();
  // The first as soon as each route has been tried.
  let [told, turns] = [-Infinity, 0];
  while (search.advance()) {
    onProgress(search.progress);
    turns++;
    if (turns < routes || performance.now() - told < EVERY) continue;
    soFar(answer());
    told = performance.now();
  }
  return answer();
};
