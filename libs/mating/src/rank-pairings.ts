import {
  coancestry,
  coancestryBlock,
  inbreedingPaths,
  type PathExplanation,
} from '@linewright/kinship';
import { linesOf, nameOf } from './candidate.js';
import { checkWishes, wishLabel } from './class-wishes.js';
import { MatingError } from './mating-error.js';
import { midParentMean } from './mid-parent.js';
import type { PairingFilter, PairingInput, PairingOrder } from './pairing-input.js';
import { PairingJudge, type LeftOutCandidate } from './pairing-judge.js';
import { BAND_CAUTION, MID_PARENT_CAUTION, SCORE_CAUTION } from './pairing-reasons.js';
import { pairingRow, type RankedPairing } from './pairing-row.js';
import { severityRank, type Reason } from './reason.js';

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
  readonly length: number;
  /** Candidates that were put to no other fish. */
  readonly leftOut: readonly LeftOutCandidate[];
  /** Rows from position `from` (0 is the first), `count` of them or as many as there are; all when left out. */
  rows(from?: number, count?: number): readonly RankedPairing[];
  /** The two ids and the figures the list is sorted by, without the cost of a row. */
  brief(from?: number, count?: number): readonly PairingBrief[];
  /** Position of a pairing in the list, or -1 when it was filtered out or not judged. */
  positionOf(sireId: string, damId: string): number;
}

/** The light form of a row. */
export interface PairingBrief {
  readonly sireId: string;
  readonly damId: string;
  readonly inbreeding: number;
  readonly score: number;
  readonly discouraged: boolean;
}

/**
 * Judges every male by every female among the candidates and puts the pairings in order.
 *
 * F of each brood is the coancestry of the two fish. The score is the sum of explicit terms (see `ScoreWeights`) and
 * stands in each row term by term. Discouraged pairings stay in the list unless the filter leaves them out. The same input
 * gives the same list whatever order the fish come in.
 *
 * Throws `MatingError`: `MATING_UNKNOWN_FISH`, `MATING_DUPLICATE_FISH`, `MATING_BAD_DATE`, `MATING_BAD_SETTING`; and
 * `HeredityError` for a genotype that cannot be read.
 * Cost: one coancestry block and one light pass over males x females; a row costs more and is made on demand.
 *
 * @example
 * const ranking = rankPairings({ pedigree, candidates, asOf: '2026-11-25' }, { maximumInbreeding: 0.125 });
 * for (const row of ranking.rows(0, 20)) console.log(row.place, row.sireName, row.damName, row.reasons);
 */
export function rankPairings(
  input: PairingInput,
  filter: PairingFilter = {},
  order: PairingOrder = { by: 'score' },
): PairingRanking {
  checkWishes(filter.mustGive, input.loci);
  checkWishes(filter.mustNotGive, input.loci);
  const judge = new PairingJudge(inIdOrder(input), blockOf);
  const columns = judge.females.length;
  const pairs = judge.males.length * columns;
  const score = new Float64Array(pairs);
  for (let pair = 0; pair < pairs; pair++)
    score[pair] = judge.score(Math.floor(pair / columns), pair % columns);
  const kept = keptPairs(judge, filter);
  const sorted = sortPairs(judge, kept, score, order);
  const slice = (from: number, count: number): Int32Array =>
    sorted.subarray(Math.max(0, from), Math.max(0, from) + count);
  return {
    maleCount: judge.males.length,
    femaleCount: columns,
    considered: pairs,
    length: sorted.length,
    leftOut: judge.leftOut,
    rows: (from = 0, count = sorted.length) =>
      Array.from(slice(from, count), (pair, k) => {
        const [m, f] = [Math.floor(pair / columns), pair % columns];
        const row = pairingRow(judge, m, f, Math.max(0, from) + k + 1);
        return { ...row, reasons: [...row.reasons, ...unsureReasons(judge, filter, m, f)] };
      }),
    brief: (from = 0, count = sorted.length) =>
      Array.from(slice(from, count), (pair) => {
        const [m, f] = [Math.floor(pair / columns), pair % columns];
        return {
          sireId: judge.males[m]?.id ?? '',
          damId: judge.females[f]?.id ?? '',
          inbreeding: judge.inbreeding(m, f),
          score: score[pair] ?? 0,
          discouraged: gravestRank(judge, m, f) === severityRank('stop'),
        };
      }),
    positionOf: (sireId, damId) => {
      const m = judge.males.findIndex(({ id }) => id === sireId);
      const f = judge.females.findIndex(({ id }) => id === damId);
      return m < 0 || f < 0 ? -1 : sorted.indexOf(m * columns + f);
    },
  };
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
  const judge = new PairingJudge(inIdOrder(input), (of) => {
    const remembered = new Map<number, number>();
    return (m, f) => {
      const pair = m * of.females.length + f;
      const known =
        remembered.get(pair) ??
        coancestry(of.pedigree, of.maleIndex[m] ?? 0, of.femaleIndex[f] ?? 0);
      remembered.set(pair, known);
      return known;
    };
  });
  const m = judge.males.findIndex(({ id }) => id === sireId);
  const f = judge.females.findIndex(({ id }) => id === damId);
  if (m < 0) throw wrongSex(input, sireId, 'male');
  if (f < 0) throw wrongSex(input, damId, 'female');
  const paths = inbreedingPaths(
    judge.pedigree,
    judge.maleIndex[m] ?? 0,
    judge.femaleIndex[f] ?? 0,
    {
      limit: pathLimit,
    },
  );
  const cautions = [
    BAND_CAUTION,
    ...(judge.traits.length > 0 ? [MID_PARENT_CAUTION] : []),
    SCORE_CAUTION,
  ];
  return { ...pairingRow(judge, m, f, 0), paths, cautions };
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

/** Candidates by id, so that neither sums nor ties depend on the order in which they come. */
function inIdOrder(input: PairingInput): PairingInput {
  return { ...input, candidates: input.candidates.toSorted((a, b) => compare(a.id, b.id)) };
}

function blockOf(judge: PairingJudge): (m: number, f: number) => number {
  const block = coancestryBlock(judge.pedigree, judge.maleIndex, judge.femaleIndex);
  const columns = judge.females.length;
  return (m, f) => block[m * columns + f] ?? 0;
}

function gravestRank(judge: PairingJudge, m: number, f: number): number {
  let rank = 0;
  judge.eachWarning(m, f, (_code, severity) => {
    rank = Math.max(rank, severityRank(severity));
  });
  return rank;
}

function keptPairs(judge: PairingJudge, filter: PairingFilter): Int32Array {
  const sires = filter.sireIds ? new Set(filter.sireIds) : null;
  const dams = filter.damIds ? new Set(filter.damIds) : null;
  const columns = judge.females.length;
  const kept = new Int32Array(judge.males.length * columns);
  let length = 0;
  judge.males.forEach((sire, m) => {
    if (sires && !sires.has(sire.id)) return;
    judge.females.forEach((dam, f) => {
      if (dams && !dams.has(dam.id)) return;
      if (passes(judge, filter, m, f)) kept[length++] = m * columns + f;
    });
  });
  return kept.subarray(0, length);
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
  if (leaveOutFrom && gravestRank(judge, m, f) >= severityRank(leaveOutFrom)) return false;
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

/** Sorts by the order's figure (least first, `NaN` last either way), then F, then the two ids. */
function sortPairs(
  judge: PairingJudge,
  kept: Int32Array,
  score: Float64Array,
  order: PairingOrder,
): Int32Array {
  const columns = judge.females.length;
  const figure = new Float64Array(score.length);
  const inbreeding = new Float64Array(score.length);
  const figureOf = sortFigure(judge, score, order);
  const apart = new Uint8Array(order.withinLineFirst === true ? score.length : 0);
  for (const pair of kept) {
    const [m, f] = [Math.floor(pair / columns), pair % columns];
    if (apart.length > 0 && !ofOneLine(judge, m, f)) apart[pair] = 1;
    const value = figureOf(m, f, pair);
    figure[pair] = order.reversed === true ? -value : value;
    inbreeding[pair] = judge.inbreeding(m, f);
  }
  return kept.slice().sort((a, b) => {
    const groups = (apart[a] ?? 0) - (apart[b] ?? 0);
    if (groups !== 0) return groups;
    const [x, y] = [figure[a] ?? 0, figure[b] ?? 0];
    if (x !== y && !(Number.isNaN(x) && Number.isNaN(y))) {
      if (Number.isNaN(x)) return 1;
      if (Number.isNaN(y)) return -1;
      return x - y;
    }
    // Males and females stand in id order, so the pair's number is the last tie-break.
    return (inbreeding[a] ?? 0) - (inbreeding[b] ?? 0) || a - b;
  });
}

/** The figure to sort by, made so that the least comes first. */
function sortFigure(
  judge: PairingJudge,
  score: Float64Array,
  order: PairingOrder,
): (m: number, f: number, pair: number) => number {
  switch (order.by) {
    case 'score':
      return (_m, _f, pair) => -(score[pair] ?? 0);
    case 'inbreeding':
      return (m, f) => judge.inbreeding(m, f);
    case 'wanted':
      return (m, f) => -wantedSum(judge, m, f);
    case 'trait': {
      const trait = judge.traits.find(({ wish }) => wish.traitId === order.traitId);
      if (!trait) {
        const text = `Trait ${order.traitId} is not among the traits given, so the list cannot be sorted by it.`;
        throw new MatingError('MATING_BAD_SETTING', order.traitId, text);
      }
      const sign = trait.wish.higherIsBetter === false ? 1 : -1;
      return (m, f) => {
        const mean = midParentMean(trait.males[m] ?? null, trait.females[f] ?? null);
        return mean === null ? NaN : sign * mean;
      };
    }
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

function wantedSum(judge: PairingJudge, m: number, f: number): number {
  let sum = 0;
  for (const wish of judge.input.wanted ?? [])
    sum += (wish.weight ?? 1) * (judge.wishes.share(wish, m, f) ?? 0);
  for (const wish of judge.input.unwanted ?? [])
    sum -= (wish.weight ?? 1) * (judge.wishes.share(wish, m, f) ?? 0);
  return sum;
}

/** Rank of each name in code unit order; equal names share a rank. */
function nameOrder(names: readonly string[]): Int32Array {
  const ranks = new Map([...new Set(names)].toSorted(compare).map((name, rank) => [name, rank]));
  return Int32Array.from(names, (name) => ranks.get(name) ?? 0);
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
