import {
  fractionToNumber,
  type Genotype,
  genotypeFits,
  type Locus,
  phenotypesOf,
  toFraction,
} from '@linewright/heredity';

/** One locus as numbers: alleles and phenotypes by their place, genotypes by `first * alleles + second`. */
export interface LocusTable {
  readonly locus: Locus;
  readonly alleles: number;
  /** Cumulative chances of the phenotypes that a genotype can show. */
  readonly chances: readonly Float64Array[];
  /** Which phenotypes these are. */
  readonly shown: readonly Int32Array[];
  /** Share of young of a genotype that live. */
  readonly survival: Float64Array;
  /** Places of the loci that can hide this one, with their phenotypes that do. */
  readonly hiders: readonly { readonly at: number; readonly phenotypes: ReadonlySet<number> }[];
}

export const genotypeCode = ({ locus, alleles }: LocusTable, genotype: Genotype): number => {
  const place = (id: string): number => locus.alleles.findIndex((one) => one.id === id);
  return place(genotype[0]) * alleles + place(genotype[1]);
};

/** Tables of loci that are looked at together. A locus that could hide another and is not among them is taken to hide nothing. */
export function locusTables(loci: readonly Locus[]): LocusTable[] {
  return loci.map((locus) => {
    const ids = locus.alleles.map(({ id }) => id);
    const genotypes = ids.flatMap((a) => ids.map((b): Genotype => [a, b]));
    const looks = genotypes.map((genotype) => phenotypesOf(locus, genotype));
    return {
      locus,
      alleles: ids.length,
      shown: looks.map((list) => Int32Array.from(list, ({ phenotype }) => at(locus, phenotype.id))),
      chances: looks.map((list) =>
        cumulative(list.map((one) => fractionToNumber(one.probability))),
      ),
      survival: Float64Array.from(genotypes, (genotype) =>
        locus.viability
          .filter((rule) => genotypeFits(locus, genotype, rule.genotype))
          .reduce((product, rule) => product * fractionToNumber(toFraction(rule.survival)), 1),
      ),
      hiders: locus.hiddenBy.flatMap(({ locus: id, phenotypes }) => {
        const place = loci.findIndex((one) => one.id === id);
        if (place < 0) return [];
        return [{ at: place, phenotypes: new Set(phenotypes.map((one) => at(loci[place]!, one))) }];
      }),
    };
  });
}

const at = ({ phenotypes }: Locus, id: string): number =>
  phenotypes.findIndex((one) => one.id === id);

function cumulative(chances: readonly number[]): Float64Array {
  let sum = 0;
  return Float64Array.from(chances, (chance) => (sum += chance));
}
