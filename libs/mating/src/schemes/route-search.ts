import { MatingError } from '../mating-error.js';
import type { LinePurpose } from '../purpose/line-purpose.js';
import { Draws } from '../simulated/draws.js';
import { FishJudge } from '../simulated/fish-judge.js';
import type { LineBelief } from '../simulated/line-belief.js';
import { SimulatedLine } from '../simulated/simulated-line.js';
import type { Route } from './route.js';
import { RouteTally, type RouteFigures } from './route-tally.js';
import { runRoute, type RouteGoal } from './run-route.js';

/** What a search of routes starts from. */
export interface RouteSearchInput {
  readonly belief: LineBelief;
  readonly purpose: Pick<LinePurpose, 'traits' | 'looks'>;
  readonly goal: RouteGoal;
  /** Young of a brood that live to be sorted. */
  readonly fryPerBrood: number;
  /** Any safe integer: the same seed and input give the same answer. */
  readonly seed: number;
  /** Simulations of each route that is never dropped; 4,000 unless given. */
  readonly most?: number;
}

export interface RouteStanding extends RouteFigures {
  readonly route: Route;
  /** Simulations after which it was dropped for being behind; `null`: it was not. Its figures are those until then. */
  readonly droppedAfter: number | null;
}

const FIRST = 16;
const ROUTES_LEFT = 4;
const MOST = 4_000;

interface Entry {
  readonly route: Route;
  readonly tally: RouteTally;
  droppedAfter: number | null;
}

/**
 * Searches the routes by simulation. All begin with a few simulations; then the half that is behind is dropped and the others get twice as
 * many, until few are left (successive halving: Jamieson K & Talwalkar A 2016, Proc. AISTATS 51:240-248; from memory). Simulation k of
 * every route starts from the same draw of the actual fish, so that routes are compared in the same lines.
 *
 * Work is done in pieces: {@link RouteSearch.advance} one route's batch, and the standing can be read after each.
 * @throws MatingError MATING_BAD_SETTING, MATING_BAD_BELIEF.
 */
export class RouteSearch {
  readonly #input: RouteSearchInput;
  readonly #line: SimulatedLine;
  readonly #judge: FishJudge;
  readonly #entries: readonly Entry[];
  readonly #most: number;
  #goalOfRound: number;
  #done = 0;
  readonly #all: number;

  constructor(input: RouteSearchInput, routes: readonly Route[]) {
    checkInput(input, routes);
    this.#input = input;
    this.#line = new SimulatedLine(input.belief);
    this.#judge = new FishJudge(this.#line, input.purpose);
    this.#entries = routes.map((route) => ({
      route,
      tally: new RouteTally(route.steps.length),
      droppedAfter: null,
    }));
    this.#most = input.most ?? MOST;
    this.#goalOfRound = Math.min(FIRST, this.#most);
    this.#all = workOf(routes.length, this.#most);
  }

  /** Share of the work that is done, 0 to 1. */
  get progress(): number {
    return Math.min(1, this.#done / this.#all);
  }

  /** Simulates one batch of one route; false: all is done. */
  advance(batch = FIRST): boolean {
    const behind = this.#alive().find(({ tally }) => tally.simulations < this.#goalOfRound);
    if (behind === undefined) return this.#nextRound();
    const { tally, route } = behind;
    const until = Math.min(this.#goalOfRound, tally.simulations + batch);
    while (tally.simulations < until) {
      const { seed, goal, fryPerBrood } = this.#input;
      const draws = Draws.ofRun(seed, tally.simulations);
      tally.add(runRoute(this.#line, this.#judge, route, goal, { fryPerBrood, draws }));
      this.#done++;
    }
    return true;
  }

  /** All routes that were simulated so far, the best first, those dropped behind the others. */
  standing(): RouteStanding[] {
    return this.#entries
      .filter(({ tally }) => tally.simulations > 0)
      .map(({ route, tally, droppedAfter }) => ({ route, droppedAfter, ...tally.figures() }))
      .sort(bestFirst);
  }

  #alive(): Entry[] {
    return this.#entries.filter(({ droppedAfter }) => droppedAfter === null);
  }

  #nextRound(): boolean {
    const alive = this.#alive();
    if (this.#goalOfRound >= this.#most) return false;
    const order = alive
      .map((entry) => ({ entry, droppedAfter: null, ...entry.tally.figures() }))
      .sort(bestFirst);
    const keep = Math.max(Math.min(ROUTES_LEFT, alive.length), Math.ceil(alive.length / 2));
    for (const { entry } of order.slice(keep)) entry.droppedAfter = entry.tally.simulations;
    this.#goalOfRound = Math.min(this.#most, 2 * this.#goalOfRound);
    return true;
  }
}

type Ordered = Pick<RouteStanding, 'droppedAfter' | 'chance' | 'passing' | 'fry' | 'simulations'>;

/** By chance; where that is the same, by the share that passes, then by the fry. */
const bestFirst = (a: Ordered, b: Ordered): number =>
  (b.droppedAfter ?? Infinity) - (a.droppedAfter ?? Infinity) ||
  b.chance - a.chance ||
  b.passing - a.passing ||
  a.fry - b.fry;

function workOf(routes: number, most: number): number {
  let [left, round, before, work] = [routes, Math.min(FIRST, most), 0, 0];
  for (;;) {
    work += left * (round - before);
    if (round >= most) return work;
    left = Math.max(Math.min(ROUTES_LEFT, left), Math.ceil(left / 2));
    [before, round] = [round, Math.min(most, 2 * round)];
  }
}

function checkInput(
  { goal, fryPerBrood, seed, most }: RouteSearchInput,
  routes: readonly Route[],
): void {
  const expect = (name: string, fits: boolean, value: number, wanted: string): void => {
    if (!fits)
      throw new MatingError(
        'MATING_BAD_SETTING',
        name,
        `A search of routes was given ${name} ${String(value)}; it must be ${wanted}.`,
      );
  };
  expect('share', goal.share > 0 && goal.share <= 1, goal.share, 'above 0 and at most 1');
  expect('ceiling', goal.ceiling >= 0 && goal.ceiling <= 1, goal.ceiling, 'from 0 to 1');
  const wholeFry = Number.isInteger(fryPerBrood) && fryPerBrood >= 2 && fryPerBrood <= 2_000;
  expect('fryPerBrood', wholeFry, fryPerBrood, 'a whole number from 2 to 2,000');
  expect('seed', Number.isSafeInteger(seed), seed, 'a whole number');
  expect('routes', routes.length > 0, routes.length, 'at least one');
  if (most !== undefined) expect('most', Number.isInteger(most) && most >= 1, most, '1 or more');
}
