/** Identifies a locus, for example `bl`. Stable across versions. */
export type LocusId = string;
/** Identifies an allele by its meaning, for example `steel`; never by the case of a letter. */
export type AlleleId = string;
/** Identifies a phenotype class of one locus, for example `royal`. */
export type PhenotypeId = string;

/**
 * How far a locus may be trusted: `established` by published crosses, `molecular` by a genetic or genomic study,
 * `practice` among breeders with no counts seen, `disputed` where sources conflict or evidence is missing.
 */
export type Confidence = 'established' | 'molecular' | 'practice' | 'disputed';

export type Dominance =
  | 'complete'
  | 'incomplete'
  | 'dose'
  | 'variable'
  | 'polygenic'
  | 'sex-determining'
  | 'unknown';

/** Where the effect of a locus is seen. The order of the colour layers is disputed, so none is given. */
export type Layer =
  | 'iridescence'
  | 'dark pigment'
  | 'red pigment'
  | 'pattern'
  | 'fins'
  | 'body'
  | 'sex';

/** A source, and how it was come by. */
export interface Source {
  readonly id: string;
  readonly citation: string;
  readonly basis:
    | 'read in the source'
    | 'citation only, from memory'
    | 'from memory'
    | 'common practice, no source';
  readonly note?: string;
}

export interface Allele {
  readonly id: AlleleId;
  /** As usually written by hobbyists, for example `Bl`. */
  readonly symbol: string;
  readonly name: string;
}

/** Another published way of writing the alleles of a locus. */
export interface Notation {
  readonly id: string;
  readonly name: string;
  /** Symbol in this notation to allele. */
  readonly symbols: Readonly<Record<string, AlleleId>>;
  readonly note: string;
}

export interface Phenotype {
  readonly id: PhenotypeId;
  readonly name: string;
}

/** A phenotype with the exact probability that a genotype shows it, as text: `"1"`, `"9/10"`. */
export interface ExpressionOutcome {
  readonly phenotype: PhenotypeId;
  readonly probability: string;
}

/**
 * What fish of one genotype, or of a pattern of genotypes, look like. `genotype` is `Bl/bl`, or `C/-` for at least one C,
 * or `-/-` for every other. The first rule that fits counts. Several outcomes express reduced penetrance.
 */
export interface ExpressionRule {
  readonly genotype: string;
  readonly shows: readonly ExpressionOutcome[];
}

/** Another locus, some phenotypes of which make this one impossible to see. */
export interface HiddenBy {
  readonly locus: LocusId;
  readonly phenotypes: readonly PhenotypeId[];
  readonly why: string;
}

/** Share of zygotes of a genotype that live to be scored; 0 is a lethal class. */
export interface ViabilityEffect {
  readonly genotype: string;
  readonly survival: string;
  readonly why: string;
}

export interface FertilityEffect {
  readonly genotype: string;
  readonly sex: 'male' | 'female';
  readonly effect: string;
}

/** From what age the locus can be read on a fish; `fromWeeks` is null where nothing is known. */
export interface Scoring {
  readonly fromWeeks: number | null;
  readonly note: string;
  readonly basis: string;
}

/**
 * One locus as data: everything the engine computes with, and everything a breeder should be told before believing it.
 *
 * Loci of the catalogue have `origin: 'catalogue'`; those a person defines have `'own'` (see `defineLocus`).
 */
export interface Locus {
  readonly id: LocusId;
  readonly version: number;
  readonly name: string;
  readonly origin: 'catalogue' | 'own';
  readonly status: 'current' | 'withdrawn';
  readonly layer: Layer;
  /** From the most to the least dominant where that is known. */
  readonly alleles: readonly Allele[];
  readonly notations: readonly Notation[];
  readonly dominance: Dominance;
  readonly dominanceNote: string;
  readonly phenotypes: readonly Phenotype[];
  readonly expression: readonly ExpressionRule[];
  readonly hiddenBy: readonly HiddenBy[];
  readonly viability: readonly ViabilityEffect[];
  readonly fertility: readonly FertilityEffect[];
  /** Known dealings with other loci that are not computed, in words. */
  readonly interplay: readonly string[];
  readonly risks: readonly string[];
  readonly scoring: Scoring;
  readonly confidence: Confidence;
  readonly sources: readonly string[];
  readonly notes: readonly string[];
  /** Whether expectations are computed. */
  readonly computable: boolean;
  /** Why not, when they are not. */
  readonly whyNot?: string;
  /** Whether counts at this locus may be held against a ratio; some are recorded yet fit no test. */
  readonly testable: boolean;
  readonly whyNotTestable?: string;
}

/** Two alleles by id. The order is that of writing: it matters only as the phase of linked loci. */
export type Genotype = readonly [AlleleId, AlleleId];

/** A locus by id (looked up in the catalogue) or by value (a person's own). */
export type LocusReference = LocusId | Locus;
