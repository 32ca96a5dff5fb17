import { atHidersOf, type GenotypeSet, type Locus } from '@linewright/heredity';
import { fromLook } from '../loci/partial-genotype.js';
import type { StockEvidence } from './evidence.js';

/**
 * What each fish is at the loci that hide `locus`: the genotype on record there or, without one, what its look leaves open, by the
 * allele frequencies set for that locus. A locus with neither is left out.
 */
export const setsAtHiders = (
  locus: Locus,
  stock: StockEvidence,
  recorded: ReadonlyMap<string, GenotypeSet>,
): ((fishId: string) => GenotypeSet) => {
  const looks = locus.hiddenBy.flatMap(({ locus: id }) => {
    const hider = stock.byLocus.get(id);
    if (hider === undefined) return [];
    const { general } = hider.founders;
    const frequencies = 'alleles' in general ? (general.alleles as Record<string, number>) : null;
    const byFish = new Map(
      hider.records.flatMap(({ evidence }) =>
        evidence.kind === 'phenotype' ? [[evidence.fish, evidence.phenotype] as const] : [],
      ),
    );
    return [{ hider: hider.locus, byFish, frequencies }];
  });
  return (fishId) => {
    const set = { ...atHidersOf(locus, recorded.get(fishId) ?? {}) };
    for (const { hider, byFish, frequencies } of looks) {
      const look = byFish.get(fishId);
      if (set[hider.id] !== undefined || look === undefined) continue;
      const open = fromLook(hider, look, frequencies);
      if (open !== null) set[hider.id] = open;
    }
    return set;
  };
};
