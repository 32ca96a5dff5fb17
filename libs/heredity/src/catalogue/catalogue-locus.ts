import type { Allele, ExpressionRule, Locus, Phenotype } from '../locus.js';

/** The age from which breeders judge colour, and why no earlier. */
export const COLOUR_SCORING: Locus['scoring'] = {
  fromWeeks: 12,
  note: 'Colour is usually judged at three to four months and again at five to six; date every score.',
  basis: 'common practice, no source',
};

export const FIN_SCORING: Locus['scoring'] = {
  fromWeeks: 8,
  note: 'Fin form is usually read from eight to twelve weeks; spread keeps changing until five to six months.',
  basis: 'common practice, no source',
};

export const UNKNOWN_SCORING: Locus['scoring'] = {
  fromWeeks: null,
  note: 'No age was found from which this can be read.',
  basis: 'nothing found',
};

type Defaulted =
  | 'version'
  | 'origin'
  | 'status'
  | 'notations'
  | 'hiddenBy'
  | 'viability'
  | 'fertility'
  | 'interplay'
  | 'risks'
  | 'notes'
  | 'testable';

/** Fills in what most entries of the catalogue share. Anything not computed is not tested against a ratio either. */
export function catalogueLocus(
  entry: Omit<Locus, Defaulted> & Partial<Pick<Locus, Defaulted>>,
): Locus {
  const base: Locus = {
    version: 1,
    origin: 'catalogue',
    status: 'current',
    notations: [],
    hiddenBy: [],
    viability: [],
    fertility: [],
    interplay: [],
    risks: [],
    notes: [],
    testable: entry.computable,
    ...entry,
  };
  return Object.freeze(base);
}

export const allele = (id: string, symbol: string, name: string): Allele => ({ id, symbol, name });
export const phenotype = (id: string, name: string): Phenotype => ({ id, name });
/** A genotype that always shows the one phenotype. */
export const always = (genotype: string, shown: string): ExpressionRule => ({
  genotype,
  shows: [{ phenotype: shown, probability: '1' }],
});
