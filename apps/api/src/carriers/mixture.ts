import {
  broodSizePlan,
  cross,
  HeredityError,
  type JointPosterior,
  type Locus,
  type Fraction,
  type Genotype,
  fractionToNumber,
  formatGenotype,
  HIDDEN,
  ratioText,
  sumFractions,
} from '@linewright/heredity';

/** One thing a pair may be, with the shares of the classes it gives, in the order of the locus's phenotypes. */
export interface PairShares {
  readonly weight: number;
  readonly sire: string;
  readonly dam: string;
  readonly shares: readonly number[];
  /** Share of the living young on which nothing is to be seen at the locus. */
  readonly hidden: number;
  readonly ratio: string;
  readonly loss: number;
}

/** A locus that hides another, with what the pair may be there. */
export interface HidingLocus {
  readonly locus: Locus;
  readonly joint: readonly JointPosterior[];
}

/** Rarer possibilities are dropped where there are too many to go through. */
const RARE = 1e-4;
const MOST_PAIRS = 2_000;

interface Possible {
  readonly weight: number;
  readonly sire: Record<string, Genotype>;
  readonly dam: Record<string, Genotype>;
}

const withLocus = (list: readonly Possible[], { locus, joint }: HidingLocus): Possible[] =>
  list.flatMap((one) =>
    joint.map(({ sire, dam, probability }) => ({
      weight: one.weight * probability,
      sire: { ...one.sire, [locus.id]: sire },
      dam: { ...one.dam, [locus.id]: dam },
    })),
  );

/** What is gone through, and what is too rare to be. */
interface PossiblePairs {
  readonly kept: readonly Possible[];
  readonly dropped: readonly Possible[];
}

const possiblePairs = (loci: readonly HidingLocus[]): PossiblePairs => {
  const every = loci.reduce<Possible[]>(withLocus, [{ weight: 1, sire: {}, dam: {} }]);
  if (every.length <= MOST_PAIRS) return { kept: every, dropped: [] };
  const rare = (one: Possible): boolean => one.weight < RARE;
  return { kept: every.filter((one) => !rare(one)), dropped: every.filter(rare) };
};

/** What the pair may be that {@link pairShares} leaves out, in words with how likely it is; null where it goes through all. */
export const leftOutWords = (
  locus: Locus,
  joint: readonly JointPosterior[],
  hiding: readonly HidingLocus[],
): string | null => {
  const { kept, dropped } = possiblePairs([{ locus, joint }, ...hiding]);
  if (dropped.length === 0) return null;
  const chance = dropped.reduce((sum, one) => sum + one.weight, 0);
  const all = (kept.length + dropped.length).toLocaleString('en');
  return `Of ${all} things that this pair may be at ${[locus, ...hiding.map((one) => one.locus)]
    .map((one) => one.name.toLowerCase())
    .join(', ')} together, ${dropped.length.toLocaleString(
    'en',
  )} were not counted, each under 1 in 10,000; together their chance is ${(chance * 100).toPrecision(2)} %. The figures are those of the rest.`;
};

/**
 * What each possible pair gives, by the crosses of the heredity lib: among its living young, with what the loci in `hiding`
 * make invisible apart. Loci are taken as independent of one another. A pair none of whose young would live gives no class.
 */
export const pairShares = (
  locus: Locus,
  joint: readonly JointPosterior[],
  hiding: readonly HidingLocus[] = [],
): PairShares[] =>
  possiblePairs([{ locus, joint }, ...hiding])
    .kept.map(({ weight, sire, dam }): PairShares | null => {
      try {
        const brood = cross({ sire, dam }, [locus, ...hiding.map((one) => one.locus)]);
        const shareOf = (phenotype: string): Fraction =>
          sumFractions(
            brood.classes
              .filter((one) =>
                one.parts.some(
                  (part) => part.loci.includes(locus.id) && part.phenotype === phenotype,
                ),
              )
              .map((one) => one.probability),
          );
        const exact = locus.phenotypes.map((one) => shareOf(one.id));
        const present = exact.filter((one) => one.numerator > 0n);
        return {
          weight,
          sire: textAt(locus, sire),
          dam: textAt(locus, dam),
          shares: exact.map(fractionToNumber),
          hidden: fractionToNumber(shareOf(HIDDEN)),
          ratio: present.length === 1 ? 'all alike' : ratioText(present),
          loss: fractionToNumber(brood.loss),
        };
      } catch (error) {
        if (error instanceof HeredityError && error.code === 'NO_SURVIVORS') return null;
        throw error;
      }
    })
    .filter((one) => one !== null)
    .toSorted((a, b) => b.weight - a.weight);

const textAt = (locus: Locus, set: Record<string, Genotype>): string => {
  const genotype = set[locus.id];
  return genotype === undefined ? '' : formatGenotype(locus, genotype);
};

/** Chances of 0, 1, … n fish of a class of share p. */
const binomial = (n: number, p: number): Float64Array => {
  const out = new Float64Array(n + 1);
  if (p <= 0) out[0] = 1;
  else if (p >= 1) out[n] = 1;
  else {
    let log = n * Math.log1p(-p);
    const odds = Math.log(p) - Math.log1p(-p);
    for (let k = 0; k <= n; k++) {
      out[k] = Math.exp(log);
      log += Math.log(n - k) - Math.log(k + 1) + odds;
    }
  }
  return out;
};

export interface ClassOutlook {
  readonly phenotype: string;
  readonly probability: number;
  readonly canGive: number;
  readonly lowestShare: number;
  readonly highestShare: number;
  readonly countLow: number;
  readonly countHigh: number;
  readonly anyInBrood: number;
  readonly fryForOne95: number | null;
}

/** Name of the class of young on which another locus hides what there would be to see. */
export const HIDDEN_CLASS = 'not visible: hidden by another locus';

/** Rarer possibilities do not widen the range of shares shown. */
const NEGLIGIBLE = 0.001;

const fryFor = (shares: readonly { weight: number; probability: number }[]): number | null => {
  try {
    return broodSizePlan({ probability: shares, certainty: 0.95 }).fry;
  } catch (error) {
    if (error instanceof HeredityError && error.code === 'BROOD_SIZE_UNREACHABLE') return null;
    throw error;
  }
};

/**
 * Each class over all a pair may be: the brood comes from one of the possible pairs, so its count is a mixture of binomial
 * counts, wider than one binomial of the mean share. Cost: possible pairs times brood size.
 */
export const classOutlooks = (
  locus: Locus,
  pairs: readonly PairShares[],
  broodSize: number,
): ClassOutlook[] => {
  const total = pairs.reduce((sum, one) => sum + one.weight, 0);
  const seen = locus.phenotypes.map(({ name }, p) => ({
    name,
    shareOf: (one: PairShares) => one.shares[p] ?? 0,
  }));
  const hidden = { name: HIDDEN_CLASS, shareOf: (one: PairShares) => one.hidden };
  return [...seen, hidden]
    .map((phenotype): ClassOutlook => {
      const shares = pairs.map((one) => ({
        weight: total > 0 ? one.weight / total : 0,
        probability: phenotype.shareOf(one),
      }));
      const counts = new Float64Array(broodSize + 1);
      for (const { weight, probability } of shares)
        binomial(broodSize, probability).forEach((chance, k) => (counts[k]! += weight * chance));
      const likely = shares.filter((one) => one.weight > NEGLIGIBLE).map((one) => one.probability);
      return {
        phenotype: phenotype.name,
        probability: shares.reduce((sum, one) => sum + one.weight * one.probability, 0),
        canGive: shares.reduce((sum, one) => sum + (one.probability > 0 ? one.weight : 0), 0),
        lowestShare: Math.min(...likely),
        highestShare: Math.max(...likely),
        ...middle(counts),
        anyInBrood: 1 - (counts[0] ?? 0),
        fryForOne95: fryFor(shares),
      };
    })
    .filter((one) => one.probability > 0)
    .toSorted((a, b) => b.probability - a.probability);
};

/** The middle 95 of 100. */
const middle = (chances: Float64Array): { countLow: number; countHigh: number } => {
  let sum = 0;
  let countLow = -1;
  for (let k = 0; k < chances.length; k++) {
    sum += chances[k] ?? 0;
    if (countLow < 0 && sum > 0.025) countLow = k;
    if (sum >= 0.975) return { countLow: Math.max(0, countLow), countHigh: k };
  }
  return { countLow: Math.max(0, countLow), countHigh: chances.length - 1 };
};
