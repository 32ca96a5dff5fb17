import type { AlleleForecast, LineForecast } from '../forecast/forecast.js';
import { traitPoints } from '../simulated/fish-judge.js';
import type { TraitAim } from '../purpose/line-purpose.js';

/** `outcross`: the line needs it and this one helps; `brings`: it brings what the line lacks; `other-partner`: needed, but this one does not help. */
export type OutcrossVerdict = 'outcross' | 'brings' | 'other-partner' | 'not-now';

export interface OutcrossAdvice {
  readonly verdict: OutcrossVerdict;
  /** What the line is heading for without it. */
  readonly needs: readonly OutcrossPoint[];
  /** What the outcross changes for the better, and for the worse. */
  readonly gains: readonly OutcrossPoint[];
  readonly costs: readonly OutcrossPoint[];
}

/** One figure of the last generation, without the outcross and with it. */
export interface OutcrossPoint {
  readonly kind: 'inbreeding' | 'allele' | 'trait';
  /** Locus and allele, or trait; empty for F. */
  readonly subject: string;
  readonly without: number;
  readonly with: number;
}

/** An allele is at risk below this chance to be still there, and can be counted on from this chance. Guides of our own, no source. */
const AT_RISK = 0.8;
const LACKING = 0.05;
const BROUGHT = 0.5;

/**
 * When to outcross at all, by the forecast of the line with and without. A rule of our own, without a source: the line needs it when by the
 * last generation its mean F passes the ceiling, or a wanted allele is still there in fewer than 80 of 100 simulated lines; this outcross
 * helps when it changes one of these by more than chance. A wanted allele that the line lacks and would then have in at least half of the
 * simulated lines speaks for it as well. In all other cases an outcross costs type and gives nothing that is needed: not now.
 *
 * Differences within two standard errors, or within overlapping 95 % intervals, count as none.
 */
export function whenToOutcross(
  without: LineForecast,
  withIt: LineForecast,
  { ceiling, aims }: { readonly ceiling: number; readonly aims: readonly TraitAim[] },
): OutcrossAdvice {
  const [now, last] = [without.generations[0]!, without.generations.at(-1)!];
  const then = withIt.generations.at(-1)!;
  const f: OutcrossPoint = {
    kind: 'inbreeding',
    subject: '',
    without: last.inbreeding.mean,
    with: then.inbreeding.mean,
  };
  const lowersF = isMore(last.inbreeding, then.inbreeding);
  const alleles = last.alleles.map((before, k) => ({
    point: allelePoint(before, then.alleles[k]!),
    isLacking: now.alleles[k]!.stillThere < LACKING,
    raised: then.alleles[k]!.low > before.high,
    lowered: then.alleles[k]!.high < before.low,
  }));
  const atRisk = alleles.filter(({ point, isLacking }) => !isLacking && point.without < AT_RISK);
  const brought = alleles.filter(
    ({ point, isLacking, raised }) => isLacking && raised && point.with >= BROUGHT,
  );
  const needs = [...(f.without > ceiling ? [f] : []), ...atRisk.map(({ point }) => point)];
  const helps = (f.without > ceiling && lowersF) || atRisk.some(({ raised }) => raised);
  const traits = aims.flatMap((aim) => traitChange(aim, last, then));
  return {
    verdict:
      needs.length > 0 && helps
        ? 'outcross'
        : brought.length > 0
          ? 'brings'
          : needs.length > 0
            ? 'other-partner'
            : 'not-now',
    needs,
    gains: [
      ...(lowersF ? [f] : []),
      ...alleles.filter(({ raised }) => raised).map(({ point }) => point),
      ...traits.filter(({ better }) => better).map(({ point }) => point),
    ],
    costs: [
      ...(isMore(then.inbreeding, last.inbreeding) ? [f] : []),
      ...alleles.filter(({ lowered }) => lowered).map(({ point }) => point),
      ...traits.filter(({ better }) => !better).map(({ point }) => point),
    ],
  };
}

interface Measured {
  readonly mean: number;
  readonly standardError: number;
}

const apart = (a: Measured, b: Measured): boolean =>
  Math.abs(a.mean - b.mean) > 2 * Math.hypot(a.standardError, b.standardError) + 1e-12;

const isMore = (a: Measured, b: Measured): boolean => a.mean > b.mean && apart(a, b);

const allelePoint = (before: AlleleForecast, then: AlleleForecast): OutcrossPoint => ({
  kind: 'allele',
  subject: `${before.locusId} ${before.alleleId}`,
  without: before.stillThere,
  with: then.stillThere,
});

type Generation = LineForecast['generations'][number];

function traitChange(
  aim: TraitAim,
  last: Generation,
  then: Generation,
): { point: OutcrossPoint; better: boolean }[] {
  const of = ({ traits }: Generation) =>
    traits.find(({ traitId }) => traitId === aim.traitId)?.mean;
  const [before, after] = [of(last), of(then)];
  if (before === undefined || after === undefined || !apart(before, after)) return [];
  const gain =
    traitPoints({ ...aim, worth: 1 }, after.mean) - traitPoints({ ...aim, worth: 1 }, before.mean);
  if (gain === 0) return [];
  const point = {
    kind: 'trait',
    subject: aim.traitId,
    without: before.mean,
    with: after.mean,
  } as const;
  return [{ point, better: gain > 0 }];
}
