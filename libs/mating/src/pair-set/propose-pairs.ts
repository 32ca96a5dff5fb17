import type { Highs } from 'highs';
import { MatingError } from '../mating-error.js';
import { PairChooser, type PairSet } from './choose-pairs.js';
import type { PairProblem, PairWishes } from './pair-problem.js';
import type { SearchOptions } from './search.js';
import { presentCoancestry, type SetFigures, type SetPair } from './set-figures.js';

/** What is asked of a proposal. */
export interface ProposalQuestion {
  /** Highest c'Kc; `null`: no limit; `least`: as little as can be. Left out, it follows from `rise`. */
  readonly limit?: number | null | 'least';
  /** By how much the mean coancestry of the candidates may rise, as a share of what is left to lose; `null`: no limit. */
  readonly rise: number | null;
  readonly wishes: PairWishes;
  /** Stops once the worth is proven to be within this share of the best; 0.01 unless given. */
  readonly gap?: number;
  readonly secondsLeft?: () => number;
}

/** A pair of the proposal, and what it is there for. */
export interface ProposedPair {
  readonly male: number;
  readonly female: number;
  readonly worth: number;
  readonly inbreeding: number;
  /** Why it is there: it, or a fish of it, was insisted on; without any limit it would be there too; or it came in because its fish are less related. */
  readonly need: 'wish' | 'worth' | 'kinship';
  /** Place by worth among all pairs that may be made; 1 is the best. */
  readonly place: number;
  /** What all pairs together would be worth less without it, and the pairs that would stand there instead; null where it was not worked out. */
  readonly without: SetChange | null;
}

/** What becomes of a set when something is changed. */
export interface SetChange {
  /** Worth lost in all; below 0 where the earlier one was not the best. */
  readonly lost: number;
  /** Pairs that come in, and those that they take the place of. */
  readonly instead: readonly (readonly [number, number])[];
  readonly dropped: readonly (readonly [number, number])[];
}

/** The pairs of a round with what they rest on. */
export interface PairProposal {
  readonly pairs: readonly ProposedPair[];
  readonly figures: SetFigures;
  /** What no choice of pairs within the limit can be worth more than. */
  readonly bound: number;
  /** The limit that was kept; `null`: none. */
  readonly limit: number | null;
  /** The limit asked for, where it cannot be reached and the least related pairs are proposed. */
  readonly unreachable: number | null;
  /** Highest F of a brood that was kept to: the one asked for, or the lowest with which so many broods can be made at all. */
  readonly ceiling: number;
  /** Mean coancestry of the candidates as they are. */
  readonly present: number;
  /** Worth against coancestry, from the least related pairs to those of most worth. */
  readonly frontier: readonly (SetFigures & { readonly bound: number })[];
  /** How many pairs may be made. */
  readonly possible: number;
  /** What the wishes cost: the same without them, within the same limit; `null` without wishes, or where it was not worked out. */
  readonly price: SetChange | null;
}

/** Points of the frontier. */
const POINTS = 7;
/** Share of the time left that one further question may take. */
const PART = 0.2;

/**
 * Proposes the pairs of a round, with the frontier of worth against coancestry, what each pair is there for, and what wishes cost.
 *
 * A limit that so many whole broods cannot keep to is told, and the least related pairs are proposed; a ceiling on F with which so many
 * broods cannot be made is told, and the lowest one with which they can takes its place.
 *
 * @throws MatingError as {@link PairChooser}, but for limits that cannot be reached.
 */
export function proposePairs(
  highs: Highs,
  asked: PairProblem,
  { limit, rise, wishes, gap = 0.01, secondsLeft = () => Infinity }: ProposalQuestion,
): PairProposal {
  const options = (): SearchOptions => ({ gap, secondsLeft: partOf(secondsLeft) });
  const problem = withPossibleCeiling(highs, asked, wishes);
  const chooser = new PairChooser(highs, problem, wishes);
  const present = presentCoancestry(problem);
  const most = chooser.best(null, options());
  const least = chooser.leastRelated(options());
  const wanted =
    limit === undefined ? limitOf(present, rise) : limit === 'least' ? least.coancestry : limit;
  const reached = withinReach(chooser, wanted, { most, least }, options);
  const { set, unreachable } = reached;
  const kept = unreachable === null ? wanted : set.coancestry;
  const lacking = { problem, set, limit: kept, options, secondsLeft };
  return {
    ceiling: problem.ceiling ?? 1,
    ...{ figures: set, bound: set.bound, limit: kept, unreachable, present },
    frontier: frontierOf(chooser, least, most, options, secondsLeft),
    possible: problem.worth.reduce((sum, each) => sum + (Number.isNaN(each) ? 0 : 1), 0),
    price: isEmpty(wishes) ? null : priceOf(highs, lacking),
    pairs: set.pairs.map((pair) => ({
      ...pair,
      need: needOf(pair, most, { wishes, isLeast: limit === 'least', males: problem.males.length }),
      place: placeOf(problem, pair.worth),
      without: withoutPair(highs, lacking, wishes, [pair.male, pair.female]),
    })),
  };
}

/** The problem with the ceiling asked for, or else with the lowest F of a pair up to which so many pairs can be made. */
function withPossibleCeiling(highs: Highs, asked: PairProblem, wishes: PairWishes): PairProblem {
  const can = (ceiling: number): boolean => {
    try {
      // Any pairs will do.
      new PairChooser(highs, { ...asked, ceiling }, wishes).best(null, { gap: 1e6 });
      return true;
    } catch (error) {
      if (error instanceof MatingError && error.code === 'MATING_PAIRS_UNREACHABLE') return false;
      throw error;
    }
  };
  const { males, females, coancestry, worth, ceiling = 1 } = asked;
  if (can(ceiling)) return asked;
  const size = males.length + females.length;
  const figures = worth.reduce<number[]>((list, each, cell) => {
    const f = males.length + (cell % females.length);
    const inbreeding = coancestry[Math.floor(cell / females.length) * size + f]!;
    if (!Number.isNaN(each) && inbreeding > ceiling) list.push(inbreeding);
    return list;
  }, []);
  const steps = [...new Set(figures)].sort((a, b) => a - b);
  let [low, high] = [0, steps.length - 1];
  if (high < 0 || !can(steps[high]!)) return asked;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (can(steps[middle]!)) high = middle;
    else low = middle + 1;
  }
  return { ...asked, ceiling: steps[low]! };
}

interface NeedOptions {
  readonly wishes: PairWishes;
  readonly isLeast: boolean;
  readonly males: number;
}

function needOf(
  { male, female }: SetPair,
  most: SetFigures,
  { wishes: { mustPairs = [], mustFish = [] }, isLeast, males }: NeedOptions,
): ProposedPair['need'] {
  const isAsked =
    mustPairs.some(([m, f]) => m === male && f === female) ||
    mustFish.some((fish) => fish === male || fish === males + female);
  if (isAsked) return 'wish';
  const isOfWorth = most.pairs.some((pair) => pair.male === male && pair.female === female);
  return isOfWorth && !isLeast ? 'worth' : 'kinship';
}

const limitOf = (present: number, rise: number | null): number | null =>
  rise === null ? null : present + rise * (1 - present);

type Options = () => SearchOptions;

/** A part of the time that is left now. */
function partOf(secondsLeft: () => number): () => number {
  const now = secondsLeft();
  return now === Infinity ? () => Infinity : () => secondsLeft() - (1 - PART) * now;
}

function withinReach(
  chooser: PairChooser,
  limit: number | null,
  { most, least }: { readonly most: PairSet; readonly least: PairSet },
  options: Options,
): { readonly set: PairSet; readonly unreachable: number | null } {
  if (limit === null || most.coancestry <= limit) return { set: most, unreachable: null };
  try {
    return { set: chooser.best(limit, options()), unreachable: null };
  } catch (error) {
    if (!isUnreachable(error)) throw error;
    // Of those that are as little related, the ones of most worth.
    return { set: chooser.best(least.coancestry, options()), unreachable: limit };
  }
}

const isUnreachable = (error: unknown): boolean =>
  error instanceof MatingError && error.code === 'MATING_COANCESTRY_UNREACHABLE';

function frontierOf(
  chooser: PairChooser,
  least: PairSet,
  most: PairSet,
  options: Options,
  secondsLeft: () => number,
): PairProposal['frontier'] {
  const points: PairSet[] = [];
  for (let k = 0; k < POINTS - 1 && secondsLeft() > 0; k++) {
    const share = k / (POINTS - 1);
    const limit = least.coancestry + share * (most.coancestry - least.coancestry);
    if (limit >= most.coancestry) break;
    try {
      points.push(chooser.best(limit, options()));
    } catch (error) {
      if (!isUnreachable(error)) throw error;
    }
  }
  return [...points, most].filter(
    (point, k, all) => k === 0 || point.coancestry > all[k - 1]!.coancestry + 1e-12,
  );
}

interface Lacking {
  readonly problem: PairProblem;
  readonly set: PairSet;
  readonly limit: number | null;
  readonly options: Options;
  readonly secondsLeft: () => number;
}

/** What the same would be worth without any wish. */
function priceOf(highs: Highs, { problem, set, limit, options }: Lacking): SetChange | null {
  const free = new PairChooser(highs, problem).best(limit, options());
  return changeBetween(set, free);
}

function withoutPair(
  highs: Highs,
  { problem, set, limit, options, secondsLeft }: Lacking,
  wishes: PairWishes,
  pair: readonly [number, number],
): SetChange | null {
  const isSame = ([m, f]: readonly [number, number]): boolean => m === pair[0] && f === pair[1];
  if (secondsLeft() <= 0 || wishes.mustPairs?.some(isSame) === true) return null;
  const mustNotPairs = [...(wishes.mustNotPairs ?? []), pair];
  try {
    const other = new PairChooser(highs, problem, { ...wishes, mustNotPairs }).best(
      limit,
      options(),
    );
    return changeBetween(other, set);
  } catch (error) {
    if (error instanceof MatingError) return null;
    throw error;
  }
}

/** How much `after` is worth less than `before`, and which pairs only one of the two has. */
function changeBetween(after: SetFigures, before: SetFigures): SetChange {
  return {
    lost: before.worth - after.worth,
    instead: pairsOnlyIn(after, before),
    dropped: pairsOnlyIn(before, after),
  };
}

function pairsOnlyIn(one: SetFigures, other: SetFigures): (readonly [number, number])[] {
  const has = new Set(other.pairs.map(({ male, female }) => `${male} ${female}`));
  return one.pairs
    .filter(({ male, female }) => !has.has(`${male} ${female}`))
    .map(({ male, female }) => [male, female] as const);
}

const placeOf = ({ worth }: PairProblem, own: number): number =>
  1 + worth.reduce((sum, each) => sum + (each > own ? 1 : 0), 0);

const isEmpty = (wishes: PairWishes): boolean =>
  Object.values(wishes).every((list: readonly unknown[] | undefined) => (list ?? []).length === 0);
