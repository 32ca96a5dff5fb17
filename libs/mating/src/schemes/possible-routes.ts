import type { LinePurpose } from '../purpose/line-purpose.js';
import { Draws } from '../simulated/draws.js';
import { FishJudge } from '../simulated/fish-judge.js';
import type { LineBelief } from '../simulated/line-belief.js';
import { SimulatedLine } from '../simulated/simulated-line.js';
import {
  backToParentRoute,
  outcrossRoute,
  type Route,
  type RouteLengths,
  siblingRoute,
  twoSubLinesRoute,
} from './route.js';

export interface PossibleRoutesInput {
  readonly belief: LineBelief;
  readonly purpose: Pick<LinePurpose, 'traits' | 'looks' | 'ceiling'>;
  /** 1 for fish of the line, 0 for fish of others that may be crossed in. */
  readonly ofLine: ArrayLike<number>;
  readonly lengths: RouteLengths;
  /** Broods that can be raised side by side; two sub-lines need 2. */
  readonly broods: number;
  readonly seed: number;
  /** Pairs and outcrosses that routes are made of; 8 pairs and 4 outcrosses unless given. */
  readonly mostPairs?: number;
  readonly mostOutcrosses?: number;
}

export interface PossibleRoutes {
  readonly routes: readonly Route[];
  /** Pairs of the line that could be made, and of how many routes were made. */
  readonly pairs: number;
  readonly pairsTried: number;
  readonly outcrosses: number;
  readonly outcrossesTried: number;
  /** Pairs whose first brood would pass the ceiling on F: no route starts with them. */
  readonly overCeiling: number;
}

interface Parents {
  readonly sire: number;
  readonly dam: number;
}

interface Pair extends Parents {
  readonly points: number;
}

const MOST_LOOKED_AT = 400;
const TRIES = 6;
const YOUNG = 24;
const DRAWS_OF_PARENTS = 64;

/**
 * The routes that can be made of actual fish. With many pairs, those are taken whose grandchildren by brother and sister have most points in a
 * few small simulations: two generations, so that what is hidden in both parents counts; how many were left out is told.
 *
 * @throws MatingError as {@link FishJudge}.
 */
export function possibleRoutes(input: PossibleRoutesInput): PossibleRoutes {
  const { belief, ofLine, lengths, broods, mostPairs = 8, mostOutcrosses = 4 } = input;
  const places = [...belief.fish.keys()];
  const isMale = (at: number): boolean => belief.sex[at] === 'male';
  const males = places.filter(isMale);
  const females = places.filter((at) => !isMale(at));
  const all = males.flatMap((sire) => females.map((dam) => ({ sire, dam })));
  const inLine = all.filter(({ sire, dam }) => ofLine[sire] === 1 && ofLine[dam] === 1);
  const across = all.filter(({ sire, dam }) => ofLine[sire] !== ofLine[dam]);
  const allowed = inLine.filter(({ sire, dam }) => underCeiling(input, sire, dam));
  const best = bestPairs(input, allowed).slice(0, mostPairs);
  const crosses = bestPairs(input, across).slice(0, mostOutcrosses);
  const routes = best.flatMap(({ sire, dam }) => [
    siblingRoute(sire, dam, lengths),
    ...(lengths.generations < 2 || lengths.parentGenerations < 2
      ? []
      : (['sire', 'dam'] as const).map((parent) => backToParentRoute(sire, dam, parent, lengths))),
  ]);
  for (const { sire, dam } of crosses) {
    const [line, other] = ofLine[sire] === 1 ? [sire, dam] : [dam, sire];
    for (const back of backFish(input, line, best))
      routes.push(outcrossRoute({ line, other, back }, isMale, lengths));
  }
  const second = best.find(({ sire, dam }) => best[0]!.sire !== sire && best[0]!.dam !== dam);
  if (broods >= 2 && second !== undefined && lengths.generations >= 2)
    for (let apart = 1; apart < Math.min(4, lengths.generations); apart++) {
      const pairs = [best[0]!, second].map(({ sire, dam }) => [sire, dam] as [number, number]);
      routes.push(twoSubLinesRoute([pairs[0]!, pairs[1]!], apart, lengths));
    }
  return {
    routes,
    pairs: inLine.length,
    pairsTried: best.length,
    outcrosses: across.length,
    outcrossesTried: crosses.length,
    overCeiling: inLine.length - allowed.length,
  };
}

const underCeiling = (
  { belief, purpose }: PossibleRoutesInput,
  sire: number,
  dam: number,
): boolean => belief.coancestry[sire * belief.fish.length + dam]! <= purpose.ceiling + 1e-12;

/**
 * To whom the young of an outcross may go back: the fish of the line itself, the best of the other sex in the best pair, and the fish of the
 * line that is least related to it.
 */
function backFish(
  { belief, ofLine }: PossibleRoutesInput,
  line: number,
  best: readonly Pair[],
): number[] {
  const size = belief.fish.length;
  const between = (other: number): number => belief.coancestry[line * size + other]!;
  const others = [...belief.fish.keys()].filter((at) => ofLine[at] === 1 && at !== line);
  const apart = others.toSorted((a, b) => between(a) - between(b) || a - b)[0];
  const [first] = best;
  const mate = first === undefined ? line : belief.sex[line] === 'male' ? first.dam : first.sire;
  return [...new Set([line, mate, apart ?? line])];
}

/** Pairs by the points of their grandchildren in a few small simulations; before that, where there are very many, by the parents' values. */
function bestPairs(
  { belief, purpose, seed }: PossibleRoutesInput,
  pairs: readonly Parents[],
): Pair[] {
  const line = new SimulatedLine(belief);
  const judge = new FishJudge(line, purpose);
  const looked = pairs.length <= MOST_LOOKED_AT ? pairs : bestParents(line, judge, pairs, seed);
  return looked
    .map(({ sire, dam }) => ({
      sire,
      dam,
      points: grandchildren(line, judge, { sire, dam }, seed),
    }))
    .sort(byPoints);
}

const byPoints = (a: Pair, b: Pair): number =>
  b.points - a.points || a.sire - b.sire || a.dam - b.dam;

/** The pairs whose parents have most points, the mean of many draws. */
function bestParents(
  line: SimulatedLine,
  judge: FishJudge,
  pairs: readonly Parents[],
  seed: number,
): Parents[] {
  const points = new Float64Array(line.founders);
  for (let k = 0; k < DRAWS_OF_PARENTS; k++) {
    line.begin(Draws.ofRun(seed, k));
    points.forEach((_, fish) => (points[fish]! += judge.points(fish)));
  }
  return pairs
    .map(({ sire, dam }) => ({ sire, dam, points: points[sire]! + points[dam]! }))
    .sort(byPoints)
    .slice(0, MOST_LOOKED_AT);
}

function grandchildren(
  line: SimulatedLine,
  judge: FishJudge,
  { sire, dam }: Parents,
  seed: number,
): number {
  let sum = 0;
  for (let k = 0; k < TRIES; k++) {
    line.begin(Draws.ofRun(seed, k));
    const { first, count } = line.spawn(sire, dam, YOUNG);
    const best = (male: 0 | 1): number => {
      let [found, most] = [-1, -Infinity];
      for (let i = first; i < first + count; i++)
        if (line.male[i] === male && judge.points(i) > most) [found, most] = [i, judge.points(i)];
      return found;
    };
    const [brother, sister] = [best(1), best(0)];
    const last = brother < 0 || sister < 0 ? { first, count } : line.spawn(brother, sister, YOUNG);
    for (let i = last.first; i < last.first + last.count; i++) sum += judge.points(i);
  }
  return sum / (TRIES * YOUNG);
}
