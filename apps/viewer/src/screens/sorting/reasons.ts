import type { Bench, BenchLocus } from './bench-facts.js';

/** Faults named in the trade, offered until the person's own reasons take their places. */
const common = [
  'bent spine',
  'bent rays',
  'ventral fin missing or stubby',
  'gill cover does not close',
  'stunted',
  'poor colour',
  'poor spread',
];

/** As many as there are digit keys. */
const MOST = 9;

export interface Reason {
  readonly words: string;
  /** A class at the counted locus: culling for it counts the fish in that class. */
  readonly phenotype: string | null;
}

export const phenotypesOf = (locus: BenchLocus): string[] => [
  ...new Set(locus.phenotypes.map((each) => each.phenotype)),
];

/** What can be tapped: classes of the counted locus, reasons used before, then common faults. */
export function reasonsFor(bench: Bench, locus: BenchLocus | undefined): Reason[] {
  const classes = locus === undefined ? [] : phenotypesOf(locus);
  const others = [...bench.reasons, ...common].filter((words) => !classes.includes(words));
  return [
    ...classes.map((words) => ({ words, phenotype: words })),
    ...[...new Set(others)].map((words) => ({ words, phenotype: null })),
  ].slice(0, MOST);
}
