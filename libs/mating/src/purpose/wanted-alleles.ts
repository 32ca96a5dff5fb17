import { genotypesShowing, type Locus } from '@linewright/heredity';
import type { LinePurpose } from './line-purpose.js';

/** An allele that is followed, by the ids of the catalogue or of a person's own loci. */
export interface WatchedAllele {
  readonly locusId: string;
  readonly alleleId: string;
}

/** Alleles without which a wanted look cannot come: those in each genotype that shows it. */
export const wantedAlleles = (
  loci: readonly Locus[],
  looks: LinePurpose['looks'],
): WatchedAllele[] => {
  const found = new Map<string, WatchedAllele>();
  for (const { look, wanted } of looks) {
    if (!wanted) continue;
    for (const [locusId, phenotype] of Object.entries(look.show)) {
      const locus = loci.find(({ id }) => id === locusId);
      if (locus === undefined) continue;
      const [first, ...others] = genotypesShowing(locus, phenotype);
      for (const alleleId of new Set(first))
        if (others.every((genotype) => genotype.includes(alleleId)))
          found.set(`${locusId} ${alleleId}`, { locusId, alleleId });
    }
  }
  return [...found.values()];
};
