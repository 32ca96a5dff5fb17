import {
  fractionToNumber,
  type JointPosterior,
  type Genotype,
  type Locus,
  phenotypesOf,
} from '@linewright/heredity';
import type { PairShares } from './mixture.js';

interface Rival {
  readonly name: string;
  readonly expected: readonly number[];
}

/** Each comes of two parents that carry both loci twofold (double heterozygotes) and show the first, commonest class. */
const twoClasses: readonly Rival[] = [
  { name: 'two loci, both needed (9:7)', expected: [9, 7] },
  { name: 'two loci, either enough (15:1)', expected: [15, 1] },
  { name: 'two loci, one hiding the other (13:3)', expected: [13, 3] },
];
const threeClasses: readonly Rival[] = [
  { name: 'two loci, dominant by dose (9:6:1)', expected: [9, 6, 1] },
  { name: 'two loci, one hiding the other (9:3:4)', expected: [9, 4, 3] },
  { name: 'two loci, a dominant one hiding (12:3:1)', expected: [12, 3, 1] },
];

/** Below this chance that both parents show the common class, the ratios of two loci are no explanation. */
const SHOWN_AT_LEAST = 0.05;
/** Below this chance a parentage is taken as excluded. */
const EXCLUDED_BELOW = 0.0005;

const chanceOfShowing = (locus: Locus, genotype: Genotype, phenotype: string): number =>
  phenotypesOf(locus, genotype).reduce(
    (sum, one) => sum + (one.phenotype.id === phenotype ? fractionToNumber(one.probability) : 0),
    0,
  );

/**
 * Whether both parents may be double heterozygotes by what is on record of them, this brood left out: both may show the
 * common class, and both may have two different alleles at the locus.
 */
const mayBothCarry = (locus: Locus, common: string, joint: readonly JointPosterior[]): boolean => {
  let shown = 0;
  let mixed = 0;
  for (const { sire, dam, probability } of joint) {
    shown +=
      probability * chanceOfShowing(locus, sire, common) * chanceOfShowing(locus, dam, common);
    if (sire[0] !== sire[1] && dam[0] !== dam[1]) mixed += probability;
  }
  return shown >= SHOWN_AT_LEAST && mixed >= EXCLUDED_BELOW;
};

/**
 * The explanations held against one another: each ratio that the parents may give at this locus, and the ratios of two loci
 * for as many classes as were seen, where both parents may be what those take. One locus needs no rivals of its own: what
 * the pair may be has been worked out.
 *
 * `before` is what the parents may be by all records but this brood, `possible` with it; `looks` are those on record of the
 * parents themselves: one of them that shows another class is no double heterozygote, however the others were read.
 */
export const rivalsFor = (
  locus: Locus,
  observed: readonly number[],
  possible: readonly PairShares[],
  before: readonly JointPosterior[],
  looks: readonly string[],
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
    .filter((one) => one.weight > EXCLUDED_BELOW)
    .map((one) => ({
      name: `this locus: ${one.sire} × ${one.dam} (${one.ratio})`,
      expected: shown.map((p) => one.shares[p] ?? 0),
    }));
  const common = locus.phenotypes[shown[0] ?? 0]?.id ?? '';
  const ofTwoLoci = shown.length === 2 ? twoClasses : shown.length === 3 ? threeClasses : [];
  const offered = looks.every((look) => look === common) && mayBothCarry(locus, common, before);
  const others = offered ? ofTwoLoci : [];
  return {
    counts,
    hypotheses: [...ofParents, ...others].filter((one) => fresh(one.expected)),
  };
};
