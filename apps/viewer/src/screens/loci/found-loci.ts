import type { KnownLocus } from '../../api/crosses.js';

export interface LociWanted {
  /** Part of a name, a symbol or an appearance. */
  readonly text: string;
  /** How sure it is; empty for any. */
  readonly confidence: string;
}

const fits = (locus: KnownLocus, text: string): boolean =>
  [
    locus.id,
    locus.name,
    ...locus.alleles.flatMap(({ symbol, name }) => [symbol, name]),
    ...locus.phenotypes.map(({ phenotype }) => phenotype),
  ].some((word) => word.toLowerCase().includes(text.trim().toLowerCase()));

export const foundLoci = (
  loci: readonly KnownLocus[],
  { text, confidence }: LociWanted,
): KnownLocus[] =>
  loci.filter(
    (locus) => (confidence === '' || locus.confidence === confidence) && fits(locus, text),
  );
