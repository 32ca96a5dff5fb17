import { inbreedingPaths, type PathExplanation } from '@linewright/kinship';
import { linesOf, nameOf, type PairingCandidate } from './candidate.js';
import { checkWishes, wishLabel } from './class-wishes.js';
import { CoancestryStrip } from './coancestry-strip.js';
import { FirstOfOrder } from './first-of-order.js';
import { MatingError } from './mating-error.js';
import type { PairingFilter, PairingInput, PairingOrder } from './pairing-input.js';
import { PairingJudge, type LeftOutCandidate } from './pairing-judge.js';
import { BAND_CAUTION, MID_PARENT_CAUTION } from './pairing-reasons.js';
import { pairingRow } from './pairing-row.js';
import type { RankedPairing } from './ranked-pairing.js';
import { severityRank, type Reason } from './reason.js';
import type { PassingOfPair } from './worth/judged-worth.js';
import { areApart, type PairAt } from './worth/pair-worths.js';

/** A row with everything that can be said about the pairing. */
export interface PairingExplanation extends RankedPairing {
  /** Wright's paths behind F, largest contribution first. */
  readonly paths: PathExplanation;
  /** To be shown with the figures. */
  readonly cautions: readonly string[];
}

/** A ranked list of pairings. Order and filter are settled; rows are worked out when asked for. */
export interface PairingRanking {
  readonly maleCount: number;
  readonly femaleCount: number;
  /** Pairings judged: every male by every female. */
  readonly considered: number;
  /** Pairings that passed the filter. */
  readonly passed: number;
  /** Pairings listed: all that passed, or the first `most` of them. */
  readonly length: number;
  /** Candidates that were put to no other fish. */
  readonly leftOut: readonly LeftOutCandidate[];
  /** Rows from position `from` (0 is the first), `count` of them or as many as there are; all when left out. */
  rows(from?: number, count?: number): readonly RankedPairing[];
  /** The ids alone, without any further cost. */
  pairs(from?: number, count?: number): readonly PairIds[];
  /** The pair of highest worth among those listed without a stop, which the others are held against; `null` where there is none. */
  readonly best: PairIds | null;
  /** Position of a pairing in the list, or -1 when it was filtered out, stands behind `most`, or was not judged. */
  positionOf(sireId: string, damId: string): number;
}

/** Names one pairing. */
export interface PairIds {
  readonly sireId: string;
  readonly damId: string;
}

/** How far to go. */
export interface RankingOptions {
  /** Keeps only so many pairings, the first of the order; all are judged all the same. All are kept when left out. */
  readonly most?: number;
  /** Called with the share done, 0 to 1, some hundred times at the most; it may throw to end the work. */
  readonly onProgress?: (share: number) => void;
}

/**
 * Judges every male by every female among the candidates and puts the pairings in order.
 *
 * F of each brood is the coancestry of the two fish. Worth is told in a person's own points (see `WorthBasis`) and
 * stands in each row with its parts. Discouraged pairings stay in the list, by worth behind all others, unless the filter leaves them out. The same input
 * gives the same list whatever order the fish come in.
 *
 * Throws `MatingError`: `MATING_UNKNOWN_FISH`, `MATING_DUPLICATE_FISH`, `MATING_BAD_DATE`, `MATING_BAD_SETTING`; and
 * `HeredityError` for a genotype that cannot be read.
 * Cost: coancestries of all males with all females and one light pass over them; a row costs more and is made on demand.
 * Memory grows with the pairings kept, not with those judged: give `most` where there are millions.
 *
 * @example
 * const ranking = rankPairings({ pedigree, candidates, asOf: '2026-11-25' }, { maximumInbreeding: 0.125 });
 * for (const row of ranking.rows(0, 20)) console.log(row.place, row.sireName, row.damName, row.reasons);
 */
export function rankPairings(
  input: PairingInput,
  filter: PairingFilter = {},
  order: PairingOrder = { by: 'worth' },
  { most = Infinity, onProgress }: RankingOptions = {},
): PairingRanking {
  checkWishes(filter.mustGive, input.loci);
  checkWishes(filter.mustNotGive, input.loci);
  const strip = new CoancestryStrip();
  const judge = new PairingJudge(inNameOrder(input), (of) => strip.of(of));
  const first = new FirstOfOrder(most);
  const best = new BestPair();
  judgeAll(judge, strip, offering(judge, filter, order, first, best), onProgress);
  const sorted = first.sorted();
  strip.drop();
  const columns = judge.females.length;
  const listed = (from: number, count: number): PairAt[] =>
    Array.from(sorted.subarray(Math.max(0, from), Math.max(0, from) + count), (pair) => [
      Math.floor(pair / columns),
      pair % columns,
    ]);
  return {
    maleCount: judge.males.length,
    femaleCount: columns,
    considered: judge.males.length * columns,
    passed: first.offered,
    length: sorted.length,
    leftOut: judge.leftOut,
    rows: (from = 0, count = sorted.length) =>
      listed(from, count).map(([m, f], k) => {
        const row = pairingRow(judge, m, f, Math.max(0, from) + k + 1, best.pair);
        return { ...row, reasons: [...row.reasons, ...unsureReasons(judge, filter, m, f)] };
      }),
    pairs: (from = 0, count = sorted.length) =>
      listed(from, count).map(([m, f]) => idsOf(judge, m, f)),
    best: best.pair ? idsOf(judge, ...best.pair) : null,
    positionOf: (sireId, damId) => {
      const m = judge.males.findIndex(({ id }) => id === sireId);
      const f = judge.females.findIndex(({ id }) => id === damId);
      return m < 0 || f < 0 ? -1 : sorted.indexOf(m * columns + f);
    },
  };
}

type Offer = (male: number, female: number) => void;

/** Puts a pair that passes the filter into its place of the order, and holds it against the best. */
function offering(
  judge: PairingJudge,
  filter: PairingFilter,
  order: PairingOrder,
  first: FirstOfOrder,
  best: BestPair,
): Offer {
  const columns = judge.females.length;
  const pass = pairFilter(judge, filter);
  const figureOf = sortFigure(judge, order);
  const apart = order.withinLineFirst === true;
  const byWorth = order.by === 'worth';
  const sign = order.reversed === true ? -1 : 1;
  return (m, f) => {
    if (!pass(m, f)) return;
    const stopped = judge.gravest(m, f) === 'stop';
    const group = (apart && !ofOneLine(judge, m, f) ? 2 : 0) + (byWorth && stopped ? 1 : 0);
    const [figure, inbreeding] = [figureOf(m, f), judge.inbreeding(m, f)];
    first.add(m * columns + f, group, sign * figure, inbreeding);
    // Highest worth first is the least of its negative; it takes long enough to be reckoned once.
    if (!stopped) best.offer(m, f, byWorth ? -figure : judge.worth.worths.worth(m, f), inbreeding);
  };
}

/** Every male by every female, some rows of coancestries at a time. */
function judgeAll(
  judge: PairingJudge,
  strip: CoancestryStrip,
  offer: Offer,
  onProgress: RankingOptions['onProgress'],
): void {
  const columns = judge.females.length;
  const rows = strip.rowsFor(columns);
  for (let from = 0; from < judge.males.length && columns > 0; from += rows) {
    const to = Math.min(from + rows, judge.males.length);
    strip.fill(judge, from, to);
    for (let m = from; m < to; m++) for (let f = 0; f < columns; f++) offer(m, f);
    onProgress?.(to / judge.males.length);
  }
}

/**
 * One pairing in full: its row, the paths behind F, and the cautions to show with it.
 *
 * The other candidates are needed for the standing of the traits. `place` is 0, for no list was made.
 *
 * @param pathLimit How many paths to list; the rest is counted in `paths.explained`.
 *
 * Throws as {@link rankPairings}; `MATING_WRONG_SEX` when the two are not a male and a female of the candidates.
 */
export function explainPairing(
  input: PairingInput,
  sireId: string,
  damId: string,
  pathLimit = 50,
): PairingExplanation {
  const judge = judgeOf(input);
  const [m, f] = placesOf(judge, { sireId, damId });
  const paths = inbreedingPaths(
    judge.pedigree,
    judge.maleIndex[m] ?? 0,
    judge.femaleIndex[f] ?? 0,
    {
      limit: pathLimit,
    },
  );
  const cautions = [BAND_CAUTION, ...(judge.traits.length > 0 ? [MID_PARENT_CAUTION] : [])];
  return { ...pairingRow(judge, m, f, 0), paths, cautions };
}

/**
 * The rows of given pairings, as {@link rankPairings} with the same input makes them; `place` counts them as they were given.
 *
 * @param best the pair that the others are held against, as {@link rankPairings} names it; none when left out.
 *
 * Throws as {@link rankPairings}; `MATING_WRONG_SEX` when a pair is not a male and a female of the candidates.
 * Cost: what is known of each candidate once, then a row a pairing.
 */
export function judgePairings(
  input: PairingInput,
  pairs: readonly PairIds[],
  best: PairIds | null = null,
): readonly RankedPairing[] {
  const judge = judgeOf(input);
  const against = best === null ? undefined : placesOf(judge, best);
  return pairs.map((pair, k) => pairingRow(judge, ...placesOf(judge, pair), k + 1, against));
}

/**
 * The chance that a pair's brood gives the young that are to be kept, and the fry to raise for it.
 *
 * Throws as {@link judgePairings}.
 */
export function passingOfPair(input: PairingInput, pair: PairIds): PassingOfPair {
  const judge = judgeOf(input);
  return judge.worth.passing(...placesOf(judge, pair));
}

/** What a brood is planned by. */
export interface BroodOutlook {
  /** Of the pair's worth, in points. */
  readonly standardError: number;
  readonly passing: PassingOfPair;
}

/**
 * The error of each pair's worth, and the fry to raise for the young that are to be kept of its brood.
 *
 * Throws as {@link judgePairings}. Cost: what is known of each candidate once, then next to nothing a pair.
 */
export function broodOutlooks(
  input: PairingInput,
  pairs: readonly PairIds[],
): readonly BroodOutlook[] {
  const judge = judgeOf(input);
  return pairs.map((pair) => {
    const [m, f] = placesOf(judge, pair);
    const { standardError } = judge.worth.worths.of(m, f);
    return { standardError, passing: judge.worth.passing(m, f) };
  });
}

/** How far two pairs, or two sets of pairs, lie apart in worth. */
export interface WorthDifference {
  /** Worth of the first less that of the second, in points; of sets, of all their pairs together. */
  readonly points: number;
  /** Its standard error; what both rest on alike cancels. */
  readonly standardError: number;
  /** Whether it is more than twice that error. */
  readonly toldApart: boolean;
}

/**
 * How far two pairs lie apart in worth, with the error of the difference.
 *
 * Throws as {@link judgePairings}.
 */
export const worthDifference = (input: PairingInput, a: PairIds, b: PairIds): WorthDifference =>
  setsDifference(input, [a], [b]);

/**
 * How far two sets of pairs lie apart in worth, with the error of the difference; beside an empty set, the worth of the first alone.
 *
 * Throws as {@link judgePairings}. Cost: what is known of each candidate once, then next to nothing a pair.
 */
export function setsDifference(
  input: PairingInput,
  these: readonly PairIds[],
  those: readonly PairIds[],
): WorthDifference {
  const judge = judgeOf(input);
  const { worths } = judge.worth;
  const places = (pairs: readonly PairIds[]) => pairs.map((pair) => placesOf(judge, pair));
  const [ours, others] = [places(these), places(those)];
  const sum = (pairs: readonly PairAt[]): number =>
    pairs.reduce((total, pair) => total + worths.worth(...pair), 0);
  const points = sum(ours) - sum(others);
  const standardError = worths.differenceError(ours, others);
  return { points, standardError, toldApart: areApart(points, standardError) };
}

/** The best pair that was offered; of several alike that of the smallest F, then the first. */
class BestPair {
  pair: PairAt | undefined;
  #worth = -Infinity;
  #inbreeding = Infinity;

  offer(m: number, f: number, worth: number, inbreeding: number): void {
    if (worth < this.#worth || (worth === this.#worth && inbreeding >= this.#inbreeding)) return;
    this.#worth = worth;
    this.#inbreeding = inbreeding;
    this.pair = [m, f];
  }
}

const idsOf = (judge: PairingJudge, m: number, f: number): PairIds => ({
  sireId: judge.males[m]?.id ?? '',
  damId: judge.females[f]?.id ?? '',
});

/** What is worked out once for a set of candidates stays as long as whoever asks keeps the same input. */
const judges = new WeakMap<PairingInput, PairingJudge>();

function judgeOf(input: PairingInput): PairingJudge {
  const known = judges.get(input);
  if (known !== undefined) return known;
  const strip = new CoancestryStrip();
  const judge = new PairingJudge(inNameOrder(input), (of) => strip.of(of));
  judges.set(input, judge);
  return judge;
}

function placesOf(judge: PairingJudge, { sireId, damId }: PairIds): [number, number] {
  const m = judge.males.findIndex(({ id }) => id === sireId);
  const f = judge.females.findIndex(({ id }) => id === damId);
  if (m < 0) throw wrongSex(judge.input, sireId, 'male');
  if (f < 0) throw wrongSex(judge.input, damId, 'female');
  return [m, f];
}

function wrongSex(input: PairingInput, id: string, sex: 'male' | 'female'): MatingError {
  const fish = input.candidates.find((candidate) => candidate.id === id);
  if (!fish) {
    return new MatingError(
      'MATING_UNKNOWN_FISH',
      id,
      `Fish ${id} is not among the candidates. Add it to them.`,
    );
  }
  const text = `${nameOf(fish)} is recorded as ${fish.sex}; a ${sex} is needed here. Correct its sex or choose another fish.`;
  return new MatingError('MATING_WRONG_SEX', id, text);
}

/** Candidates by name, so that neither sums nor ties depend on the order in which they come, nor on ids drawn at random. */
function inNameOrder(input: PairingInput): PairingInput {
  return { ...input, candidates: input.candidates.toSorted(byName) };
}

/** What lets a pairing into the list. */
function pairFilter(judge: PairingJudge, filter: PairingFilter): (m: number, f: number) => boolean {
  const among = (list: readonly PairingCandidate[], ids: readonly string[] | undefined) => {
    const wanted = ids && new Set(ids);
    return Uint8Array.from(list, ({ id }) => (!wanted || wanted.has(id) ? 1 : 0));
  };
  const sires = among(judge.males, filter.sireIds);
  const dams = among(judge.females, filter.damIds);
  return (m, f) => sires[m] === 1 && dams[f] === 1 && passes(judge, filter, m, f);
}

function passes(judge: PairingJudge, filter: PairingFilter, m: number, f: number): boolean {
  const { maximumInbreeding, mustGive, mustNotGive, leaveOutFrom, leaveOutWarnings } = filter;
  if (filter.withinLine === true && !ofOneLine(judge, m, f)) return false;
  // A sum of powers of two may come out a rounding above the limit that it equals.
  if (maximumInbreeding !== undefined && judge.inbreeding(m, f) > maximumInbreeding + 1e-12)
    return false;
  if (mustGive && !mustGive.every((wish) => (judge.wishes.share(wish, m, f) ?? 0) > 0))
    return false;
  if (mustNotGive?.some((wish) => (judge.wishes.share(wish, m, f) ?? 0) > 0)) return false;
  if (leaveOutFrom && severityRank(judge.gravest(m, f)) >= severityRank(leaveOutFrom)) return false;
  if (!leaveOutWarnings || leaveOutWarnings.length === 0) return true;
  let raised = false;
  judge.eachWarning(m, f, (code) => {
    if (leaveOutWarnings.includes(code)) raised = true;
  });
  return !raised;
}

/** A pairing that stays only because it is not known whether it gives an excluded class says so. */
function unsureReasons(
  judge: PairingJudge,
  { mustNotGive }: PairingFilter,
  m: number,
  f: number,
): Reason[] {
  return (mustNotGive ?? []).flatMap((wish): Reason[] => {
    if (judge.wishes.share(wish, m, f) !== null) return [];
    const label = wishLabel(wish);
    const text = `It is not known whether ${label} may come out; the pairing stays in the list.`;
    return [{ code: 'CLASS_NOT_KNOWN', leaning: 'neutral', text, figures: { class: label } }];
  });
}

function ofOneLine(judge: PairingJudge, m: number, f: number): boolean {
  const [sire, dam] = [judge.males[m], judge.females[f]];
  return sire !== undefined && dam !== undefined && linesOf(sire, dam) === 'same';
}

/** The figure to sort by, made so that the least comes first. */
function sortFigure(judge: PairingJudge, order: PairingOrder): (m: number, f: number) => number {
  switch (order.by) {
    case 'worth':
      return (m, f) => -judge.worth.worths.worth(m, f);
    case 'inbreeding':
      return (m, f) => judge.inbreeding(m, f);
    case 'sire': {
      const place = nameOrder(judge.males.map(nameOf));
      return (m) => place[m] ?? 0;
    }
    case 'dam': {
      const place = nameOrder(judge.females.map(nameOf));
      return (_m, f) => place[f] ?? 0;
    }
  }
}

/** Rank of each name in code unit order; equal names share a rank. */
function nameOrder(names: readonly string[]): Int32Array {
  const ranks = new Map([...new Set(names)].toSorted(compare).map((name, rank) => [name, rank]));
  return Int32Array.from(names, (name) => ranks.get(name) ?? 0);
}

function byName(a: PairingCandidate, b: PairingCandidate): number {
  return compare(nameOf(a), nameOf(b)) || compare(a.id, b.id);
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
