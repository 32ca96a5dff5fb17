import type { Fraction, FractionInput } from '../fraction.js';
import type { GenotypeSet } from '../genotype.js';
import type { Genotype, LocusId } from '../locus.js';

export interface CrossParents {
  readonly sire: GenotypeSet;
  readonly dam: GenotypeSet;
}

/** Two neighbouring loci on one chromosome. Recombination fraction from 0 to 1/2, for both sexes or for each. */
export interface Linkage {
  readonly loci: readonly [LocusId, LocusId];
  readonly recombination:
    | FractionInput
    | { readonly sire: FractionInput; readonly dam: FractionInput };
}

/**
 * Whether the order of alleles in the written genotypes says which came on one chromosome: with `as-written`, `A/a` and
 * `B/b` are the chromosomes AB and ab (coupling), `A/a` and `b/B` are Ab and aB (repulsion). With `unknown` all phases are
 * equally likely. It matters for linked loci only.
 */
export type Phase = 'as-written' | 'unknown';

export interface InteractionRule {
  /** Genotype pattern by locus, such as `{ a: 'A/-', b: 'b/b' }`; a locus left out may be anything. */
  readonly when: Readonly<Record<LocusId, string>>;
  /** One phenotype, or several with probabilities that sum to 1. */
  readonly shows:
    | string
    | readonly { readonly phenotype: string; readonly probability: FractionInput }[];
}

/**
 * How several loci together make one phenotype (epistasis). Either a table of rules, of which the first that fits counts,
 * or a function. The interaction takes the place of what its loci would show by themselves.
 */
export interface Interaction {
  readonly name: string;
  readonly loci: readonly LocusId[];
  readonly rules?: readonly InteractionRule[];
  /** Phenotype when no rule fits. */
  readonly otherwise?: string;
  readonly classify?: (genotypes: Readonly<Record<LocusId, Genotype>>) => string;
}

/** Zygotes whose genotypes fit all of `when` live with probability `survival`; 0 is a lethal class. */
export interface ViabilityRule {
  readonly when: Readonly<Record<LocusId, string>>;
  readonly survival: FractionInput;
  readonly why: string;
}

export interface CrossOptions {
  readonly linkage?: readonly Linkage[];
  readonly phase?: { readonly sire?: Phase; readonly dam?: Phase };
  readonly interactions?: readonly Interaction[];
  readonly viability?: readonly ViabilityRule[];
}

/** What a class shows at one locus, or at the loci of an interaction. */
export interface PhenotypePart {
  readonly loci: readonly LocusId[];
  readonly phenotype: string;
  readonly name: string;
}

export interface PhenotypeClass {
  /** Stable within one set of loci, for example `c=dark|bl=royal`. */
  readonly key: string;
  readonly label: string;
  readonly parts: readonly PhenotypePart[];
  readonly probability: Fraction;
}

export interface LocusGenotypes {
  readonly locus: LocusId;
  readonly genotypes: readonly {
    readonly genotype: Genotype;
    readonly text: string;
    readonly probability: Fraction;
  }[];
}

/** What a cross is expected to give. */
export interface CrossExpectation {
  readonly loci: readonly LocusId[];
  /** Most frequent first. Probabilities are of surviving young and sum to exactly 1. */
  readonly classes: readonly PhenotypeClass[];
  /** Share of zygotes lost in lethal or weak classes. */
  readonly loss: Fraction;
  readonly lossReasons: readonly string[];
  /** Genotypes of the survivors, a locus at a time. */
  readonly perLocus: readonly LocusGenotypes[];
  /** What to keep in mind when reading the classes. */
  readonly notes: readonly string[];
}

export interface GenotypeClass {
  readonly genotypes: Readonly<Record<LocusId, Genotype>>;
  /** `C/c Bl/bl`. */
  readonly label: string;
  readonly probability: Fraction;
}

/** Weight that stands for no visible phenotype because another locus hides it. */
export const HIDDEN = 'hidden';
