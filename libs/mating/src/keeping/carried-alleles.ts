import {
  fractionToNumber,
  type GenotypeInput,
  type Locus,
  readGenotype,
  toFraction,
  type WeightedGenotypeInput,
} from '@linewright/heredity';
import type { PairingCandidate } from '../candidate.js';
import type { WatchedAllele } from '../purpose/wanted-alleles.js';

/**
 * Chance that a fish carries an allele, by the chances of its genotypes; `null` where none were worked out for it. Chances that were
 * rounded and so miss 1 are taken in proportion.
 */
export function chanceOfCarrying(
  { carries }: Pick<PairingCandidate, 'carries'>,
  locus: Locus,
  alleleId: string,
): number | null {
  const possible = carries?.[locus.id];
  if (possible === undefined) return null;
  let [carrying, all] = [0, 0];
  for (const { genotype, probability } of isWeighted(possible) ? possible : sure(possible)) {
    const chance = fractionToNumber(toFraction(probability));
    all += chance;
    if (readGenotype(locus, genotype).some((one) => one.genotype.includes(alleleId)))
      carrying += chance;
  }
  return all > 0 ? carrying / all : null;
}

type Weighted = readonly WeightedGenotypeInput[];

const isWeighted = (input: GenotypeInput): input is Weighted =>
  typeof input !== 'string' && typeof input[0] !== 'string';

const sure = (genotype: Exclude<GenotypeInput, Weighted>): Weighted => [
  { genotype, probability: 1 },
];

/** What is known of one wanted allele in the living fish of a line. */
export interface AlleleInLine extends WatchedAllele {
  /** Chance that each living fish of the line carries it, by id; a fish left out counts as not known. */
  readonly carrying: ReadonlyMap<string, number>;
  /** Chance that a fish carries it and no other living fish of the line does, by id; `null` where that could not be worked out. */
  readonly sole: ReadonlyMap<string, number> | null;
}

/** A wanted allele in one young. */
export interface CarriedAllele extends WatchedAllele {
  /** Chance that the young carries it; `null`: not known. */
  readonly chance: number | null;
  /** How many other living fish of the line are expected to carry it. */
  readonly others: number;
  /** Chance that it is the last carrier: it carries the allele, and no other living fish of the line does; `null`: not known. */
  readonly last: number | null;
}

/** A wanted allele as it stands for one fish of the line. */
export function carriedBy(
  { carrying, sole, ...which }: AlleleInLine,
  fishId: string,
): CarriedAllele {
  let others = 0;
  for (const [id, chance] of carrying) if (id !== fishId) others += chance;
  return {
    locusId: which.locusId,
    alleleId: which.alleleId,
    chance: carrying.get(fishId) ?? null,
    others,
    last: sole === null ? null : (sole.get(fishId) ?? null),
  };
}
