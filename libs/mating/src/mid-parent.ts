import { dayNumber } from './calendar.js';
import type { PairingCandidate, TraitScore, TraitWish } from './candidate.js';

/** A fish's scores of one trait, summed up. */
export interface ParentTrait {
  /** Its latest score; of several on that day their mean. */
  readonly value: number;
  readonly scoredOn: string;
  /** Age at the latest score, days, when recorded. */
  readonly ageDays: number | null;
  readonly traitVersion: number | null;
  /** How many scores of this trait (and this version of its definition) stand. */
  readonly count: number;
  readonly lowest: number;
  readonly highest: number;
  /** Sample standard deviation over those scores; `null` for a single one. */
  readonly deviation: number | null;
}

/** Mid-parent figure of one trait. */
export interface MidParent {
  readonly traitId: string;
  readonly name: string;
  readonly unit: string | null;
  /** Present when scores are yes (1) or no (0). */
  readonly yesNo?: true;
  /**
   * Mean of the two parents' latest scores; `null` unless both are scored under one version of the trait. It describes
   * the parents. It is not a prediction of the young nor of a breeding value: no heritability goes into it.
   */
  readonly mean: number | null;
  readonly whyNoMean:
    | 'NEITHER_SCORED'
    | 'SIRE_NOT_SCORED'
    | 'DAM_NOT_SCORED'
    | 'VERSIONS_DIFFER'
    | null;
  readonly sire: ParentTrait | null;
  readonly dam: ParentTrait | null;
  /** Scores behind it, both parents together. */
  readonly count: number;
  /** Lowest and highest of those scores; `null` without any. */
  readonly range: readonly [number, number] | null;
  /** Mean of the pair less the mean of all candidates, in their standard deviations; positive is better. */
  readonly standing: number | null;
}

/** Mean and spread of the candidates' latest scores, against which pairs are compared. */
export interface TraitSpread {
  readonly mean: number;
  /** Sample standard deviation; 0 when fewer than two fish are scored or all are alike. */
  readonly deviation: number;
  /** Fish scored. */
  readonly count: number;
}

/**
 * Sums up the standing scores of one trait. Only scores under the same version of the definition as the latest one are
 * counted. `null` when the fish has none.
 */
export function summariseTrait(scores: readonly TraitScore[], traitId: string): ParentTrait | null {
  const own = scores.filter((score) => score.traitId === traitId);
  const latestDay = Math.max(...own.map(({ scoredOn }) => dayNumber(scoredOn)));
  const ofDay = own.filter(({ scoredOn }) => dayNumber(scoredOn) === latestDay);
  if (ofDay.length === 0) return null;
  const version = ofDay.reduce<number | null>((highest, { traitVersion }) => {
    return traitVersion === undefined ? highest : Math.max(highest ?? traitVersion, traitVersion);
  }, null);
  const sameVersion = (score: TraitScore): boolean => (score.traitVersion ?? null) === version;
  const latest = ofDay.filter(sameVersion);
  const values = own.filter(sameVersion).map(({ value }) => value);
  return {
    value: mean(latest.map(({ value }) => value)),
    scoredOn: latest[0]?.scoredOn ?? '',
    ageDays: latest[0]?.ageDays ?? null,
    traitVersion: version,
    count: values.length,
    lowest: Math.min(...values),
    highest: Math.max(...values),
    deviation: values.length > 1 ? sampleDeviation(values) : null,
  };
}

/** Mean and sample standard deviation of the latest scores. */
export function spreadOf(summaries: readonly (ParentTrait | null)[]): TraitSpread {
  const values = summaries.flatMap((summary) => (summary ? [summary.value] : []));
  if (values.length === 0) return { mean: 0, deviation: 0, count: 0 };
  return {
    mean: mean(values),
    deviation: values.length > 1 ? sampleDeviation(values) : 0,
    count: values.length,
  };
}

/** Standing of a mid-parent mean among the candidates, in standard deviations, positive being better. */
export function standingOf(midParent: number, spread: TraitSpread, wish: TraitWish): number {
  if (spread.deviation === 0) return 0;
  const standing = (midParent - spread.mean) / spread.deviation;
  return wish.higherIsBetter === false ? -standing : standing;
}

/** Mean of two parents' latest scores, or `null` when it may not be formed; cheap enough for every pair of a long list. */
export function midParentMean(sire: ParentTrait | null, dam: ParentTrait | null): number | null {
  if (!sire || !dam || sire.traitVersion !== dam.traitVersion) return null;
  return (sire.value + dam.value) / 2;
}

/** The mid-parent figure of one trait with what stands behind it. */
export function midParent(
  wish: TraitWish,
  sire: ParentTrait | null,
  dam: ParentTrait | null,
  spread: TraitSpread,
): MidParent {
  const average = midParentMean(sire, dam);
  const scored = [sire, dam].flatMap((parent) => (parent ? [parent] : []));
  return {
    traitId: wish.traitId,
    name: wish.name ?? wish.traitId,
    unit: wish.unit ?? null,
    ...(wish.yesNo === true && { yesNo: true }),
    mean: average,
    whyNoMean: average === null ? whyNone(sire, dam) : null,
    sire,
    dam,
    count: scored.reduce((sum, { count }) => sum + count, 0),
    range:
      scored.length === 0
        ? null
        : [
            Math.min(...scored.map(({ lowest }) => lowest)),
            Math.max(...scored.map(({ highest }) => highest)),
          ],
    standing: average === null ? null : standingOf(average, spread, wish),
  };
}

/** Latest-score summaries of one trait for many fish, in their order. */
export function summariseAll(
  fish: readonly PairingCandidate[],
  traitId: string,
): (ParentTrait | null)[] {
  return fish.map(({ scores }) => (scores ? summariseTrait(scores, traitId) : null));
}

function whyNone(sire: ParentTrait | null, dam: ParentTrait | null): MidParent['whyNoMean'] {
  if (!sire && !dam) return 'NEITHER_SCORED';
  if (!sire) return 'SIRE_NOT_SCORED';
  return dam ? 'VERSIONS_DIFFER' : 'DAM_NOT_SCORED';
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function sampleDeviation(values: readonly number[]): number {
  const centre = mean(values);
  const squares = values.reduce((sum, value) => sum + (value - centre) ** 2, 0);
  return Math.sqrt(squares / (values.length - 1));
}
