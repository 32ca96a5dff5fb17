import {
  broodSizePlan,
  cross,
  HeredityError,
  type JointPosterior,
  type Locus,
  fractionToNumber,
  formatGenotype,
  ratioText,
} from '@linewright/heredity';

/** One thing a pair may be, with the shares of the classes it gives, in the order of the locus's phenotypes. */
export interface PairShares {
  readonly weight: number;
  readonly sire: string;
  readonly dam: string;
  readonly shares: readonly number[];
  readonly ratio: string;
  readonly loss: number;
}

/** What each possible pair gives. */
export const pairShares = (locus: Locus, joint: readonly JointPosterior[]): PairShares[] =>
  joint
    .map(({ sire, dam, probability }): PairShares | null => {
      try {
        const brood = cross({ sire: { [locus.id]: sire }, dam: { [locus.id]: dam } }, [locus]);
        const byName = new Map(brood.classes.map((one) => [one.label, one.probability]));
        const present = locus.phenotypes.flatMap((one) => byName.get(one.name) ?? []);
        return {
          weight: probability,
          sire: formatGenotype(locus, sire),
          dam: formatGenotype(locus, dam),
          shares: locus.phenotypes.map((one) => {
            const share = byName.get(one.name);
            return share === undefined ? 0 : fractionToNumber(share);
          }),
          ratio: present.length === 1 ? 'all alike' : ratioText(present),
          loss: fractionToNumber(brood.loss),
        };
      } catch (error) {
        // A pair none of whose young would live gives no class at all.
        if (error instanceof HeredityError && error.code === 'NO_SURVIVORS') return null;
        throw error;
      }
    })
    .filter((one) => one !== null)
    .toSorted((a, b) => b.weight - a.weight);

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
  return locus.phenotypes
    .map((phenotype, p): ClassOutlook => {
      const shares = pairs.map((one) => ({
        weight: total > 0 ? one.weight / total : 0,
        probability: one.shares[p] ?? 0,
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
