import type { Locus } from '@linewright/heredity';
import type { PairShares } from './mixture.js';

interface Rival {
  readonly name: string;
  readonly expected: readonly number[];
}

const twoClasses: readonly Rival[] = [
  { name: 'one locus, two carriers (3:1)', expected: [3, 1] },
  { name: 'one locus, carrier by recessive (1:1)', expected: [1, 1] },
  { name: 'two loci, both needed (9:7)', expected: [9, 7] },
  { name: 'two loci, either enough (15:1)', expected: [15, 1] },
  { name: 'two loci, one hiding the other (13:3)', expected: [13, 3] },
];
const threeClasses: readonly Rival[] = [
  { name: 'one locus, incomplete dominance (1:2:1)', expected: [1, 2, 1] },
  { name: 'two loci, dominant by dose (9:6:1)', expected: [9, 6, 1] },
  { name: 'two loci, one hiding the other (9:3:4)', expected: [9, 4, 3] },
  { name: 'two loci, a dominant one hiding (12:3:1)', expected: [12, 3, 1] },
];

/**
 * The explanations held against one another: each ratio that the parents may give at this locus, and the ratios of two loci
 * or of incomplete dominance for as many classes as were seen.
 */
export const rivalsFor = (
  locus: Locus,
  observed: readonly number[],
  possible: readonly PairShares[],
): { counts: number[]; hypotheses: Rival[] } => {
  const shown = locus.phenotypes.flatMap((_, p) =>
    (observed[p] ?? 0) > 0 || possible.some((one) => (one.shares[p] ?? 0) > 0) ? [p] : [],
  );
  const counts = shown.map((p) => observed[p] ?? 0);
  const seen = new Set<string>();
  const fresh = (shares: readonly number[]): boolean => {
    const sum = shares.reduce((a, b) => a + b, 0);
    const key = shares.map((share) => (share / sum).toFixed(6)).join();
    return !seen.has(key) && Boolean(seen.add(key));
  };
  const ofParents = possible
    .filter((one) => one.weight > 0.0005)
    .map((one) => ({
      name: `this locus: ${one.sire} × ${one.dam} (${one.ratio})`,
      expected: shown.map((p) => one.shares[p] ?? 0),
    }));
  const others = shown.length === 2 ? twoClasses : shown.length === 3 ? threeClasses : [];
  return {
    counts,
    hypotheses: [...ofParents, ...others].filter((one) => fresh(one.expected)),
  };
};
