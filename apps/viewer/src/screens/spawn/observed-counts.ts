import {
  addFractions,
  divideFractions,
  formatFraction,
  fractionToNumber,
  sumFractions,
  toFraction,
} from '@linewright/heredity';
import type { Cross } from '../../api/heredity.js';
import type { SpawnFacts } from '../../api/spawns.js';

export type ClassCount = SpawnFacts['classCounts'][number];

export interface FoldedClass {
  phenotype: string;
  /** Exact, such as 3/16. */
  fraction: string;
  probability: number;
  /** Whether another locus hides something of it, so that it cannot be counted by look. */
  hidden: boolean;
}

/** What a test of fit can be made of. */
export interface TestedClasses {
  readonly expected: readonly FoldedClass[];
  /** Fish counted in these classes. */
  readonly tested: number;
  /** Names of expected classes that were left out, as other loci hide them and none was counted in them. */
  readonly notSeen: readonly string[];
}

/**
 * The expected classes that counts can be held against. Where some are hidden by another locus and no fish was put in any of them,
 * only fish that can be seen were counted: the shares are then those among them.
 */
export function testedClasses({
  expected,
  byClass,
}: Pick<ObservedScoring, 'expected' | 'byClass'>): TestedClasses | null {
  if (expected === null) return null;
  const numberOf = (one: FoldedClass): number => byClass.get(one.phenotype) ?? 0;
  const seenOnly = !expected.some((one) => one.hidden && numberOf(one) > 0);
  const kept = seenOnly ? expected.filter((one) => !one.hidden) : expected;
  const total = sumFractions(kept.map((one) => toFraction(one.fraction)));
  return {
    tested: kept.reduce((sum, one) => sum + numberOf(one), 0),
    notSeen: expected.filter((one) => !kept.includes(one)).map((one) => one.phenotype),
    expected: kept.map((one) => {
      const share = divideFractions(toFraction(one.fraction), total);
      return { ...one, fraction: formatFraction(share), probability: fractionToNumber(share) };
    }),
  };
}

/** The counts of one day that were made at the same loci: one scoring of the brood. */
export interface ObservedScoring {
  /** Stable for a set of loci, whatever their order. */
  key: string;
  locusIds: readonly string[];
  counts: readonly ClassCount[];
  /** What the parents lead to expect at just these loci; null where one of them cannot be worked out. */
  expected: readonly FoldedClass[] | null;
  /** Observed number by class. */
  byClass: ReadonlyMap<string, number>;
  /** Counted classes that the parents' genotypes do not allow at these loci. */
  unexpected: readonly { phenotype: string; number: number }[];
  total: number;
}

export interface ObservedDay {
  on: string;
  scorings: readonly ObservedScoring[];
}

type ExpectedClasses = Pick<Cross, 'classes'>;

/**
 * The expected classes of a cross at some of its loci only: classes that differ nowhere else are one, and their exact
 * shares add up. Null where a locus was not worked out, or makes its look together with one that was not counted.
 */
export function foldClasses(
  { classes }: ExpectedClasses,
  locusIds: readonly string[],
): FoldedClass[] | null {
  if (locusIds.length === 0) return null;
  const folded = new Map<string, ReturnType<typeof toFraction>>();
  const hidden = new Set<string>();
  for (const one of classes) {
    const parts = one.parts.filter((part) => part.locusIds.every((id) => locusIds.includes(id)));
    const shown = new Set(parts.flatMap((part) => part.locusIds));
    if (!locusIds.every((id) => shown.has(id))) return null;
    const phenotype = parts.map((part) => part.phenotype).join(', ');
    if (parts.some((part) => part.hidden)) hidden.add(phenotype);
    const share = toFraction(one.fraction);
    const before = folded.get(phenotype);
    folded.set(phenotype, before === undefined ? share : addFractions(before, share));
  }
  if (folded.size === 0) return null;
  return [...folded]
    .map(([phenotype, share]) => ({
      phenotype,
      fraction: formatFraction(share),
      probability: fractionToNumber(share),
      hidden: hidden.has(phenotype),
    }))
    .sort((a, b) => b.probability - a.probability);
}

const setKey = (locusIds: readonly string[]): string => [...new Set(locusIds)].sort().join('+');

function scoring(key: string, counts: readonly ClassCount[], cross: ExpectedClasses) {
  const locusIds = [...new Set(counts[0]?.locusIds ?? [])];
  const expected = foldClasses(cross, locusIds);
  const names = new Set(expected?.map((each) => each.phenotype));
  const byClass = new Map<string, number>();
  for (const { phenotype, number } of counts) {
    byClass.set(phenotype, (byClass.get(phenotype) ?? 0) + number);
  }
  return {
    key,
    locusIds,
    counts,
    expected,
    byClass,
    unexpected:
      expected === null
        ? []
        : [...byClass]
            .filter(([phenotype]) => !names.has(phenotype))
            .map(([phenotype, number]) => ({ phenotype, number })),
    total: counts.reduce((sum, { number }) => sum + number, 0),
  };
}

/**
 * The counts of a brood by day, latest first, and within a day by the set of loci they were made at. The same fish may be
 * counted at one locus and then at another, so numbers are never summed across sets.
 */
export function observedDays(
  { classCounts }: Pick<SpawnFacts, 'classCounts'>,
  cross: ExpectedClasses,
): ObservedDay[] {
  const days = [...new Set(classCounts.map((count) => count.countedOn))].sort().reverse();
  return days.map((on) => {
    const ofDay = classCounts.filter((count) => count.countedOn === on);
    const keys = [...new Set(ofDay.map((count) => setKey(count.locusIds)))];
    return {
      on,
      scorings: keys.map((key) =>
        scoring(
          key,
          ofDay.filter((count) => setKey(count.locusIds) === key),
          cross,
        ),
      ),
    };
  });
}
