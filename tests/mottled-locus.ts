/** A locus of a person's own: mottled is recessive. */
export const mottled = {
  locusId: 'mottle',
  name: 'Mottle',
  alleles: [
    { symbol: 'Mo', name: 'plain' },
    { symbol: 'mo', name: 'mottled' },
  ],
  looks: [
    { genotype: 'Mo/-', phenotype: 'plain' },
    { genotype: 'mo/mo', phenotype: 'mottled' },
  ],
};
