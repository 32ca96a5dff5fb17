import type { GenotypeInput } from '../genotype.js';
import type { AlleleId, PhenotypeId } from '../locus.js';
import type { FractionInput } from '../fraction.js';

/** How often a fish is put into a wrong class, any other being as likely; 0 when left out. */
interface Scored {
  /** Names the record in explanations of contradictions. */
  readonly id: string;
  readonly misScoring?: FractionInput;
}

/** A recorded fish was seen to show a phenotype of the locus. */
export interface PhenotypeEvidence extends Scored {
  readonly kind: 'phenotype';
  readonly fish: string;
  readonly phenotype: PhenotypeId;
}

/** A recorded fish is known to have a genotype, wholly (`D/d`) or partly (`D/-`). */
export interface GenotypeEvidence {
  readonly kind: 'genotype';
  readonly id: string;
  readonly fish: string;
  readonly genotype: string;
}

/** A brood of two recorded fish was counted, none of the young needing a record of its own. */
export interface BroodEvidence extends Scored {
  readonly kind: 'brood';
  readonly sire: string;
  readonly dam: string;
  /** Fish by phenotype; whole numbers. A phenotype left out was not seen. */
  readonly counts: Readonly<Record<PhenotypeId, number>>;
}

/** A brood of a recorded fish and a partner without a record, whose genotype is known or a distribution. */
export interface TestMatingEvidence extends Scored {
  readonly kind: 'test-mating';
  readonly fish: string;
  readonly partner: GenotypeInput;
  readonly counts: Readonly<Record<PhenotypeId, number>>;
}

export type CarrierEvidence =
  | PhenotypeEvidence
  | GenotypeEvidence
  | BroodEvidence
  | TestMatingEvidence;

/** What is thought of a fish without parents: allele frequencies of its line, or its genotypes directly. */
export type FounderBelief =
  | { readonly alleles: Readonly<Record<AlleleId, FractionInput>> }
  | { readonly genotypes: GenotypeInput };

export interface FounderBeliefs {
  /** For every founder and unknown parent not named in `byFish`. */
  readonly general: FounderBelief;
  readonly byFish?: Readonly<Record<string, FounderBelief>>;
}
