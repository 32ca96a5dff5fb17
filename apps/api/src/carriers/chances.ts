import { allGenotypes, formatGenotype, type Locus, phenotypesOf } from '@linewright/heredity';
import type { AlleleChanceModel, GenotypeChanceModel } from './carriers.model.js';

interface Chance {
  readonly text: string;
  readonly probability: number;
  readonly standardError?: number | null;
}

/** What a genotype looks like, by its text. */
export const looksByGenotype = (locus: Locus): Map<string, string> =>
  new Map(
    allGenotypes(locus).map((genotype) => [
      formatGenotype(locus, genotype),
      phenotypesOf(locus, genotype)
        .map((one) => one.phenotype.name)
        .join(' or '),
    ]),
  );

/** Likeliest first; genotypes that cannot be are left out. */
export const toGenotypeChances = (
  locus: Locus,
  chances: readonly Chance[],
): GenotypeChanceModel[] => {
  const looks = looksByGenotype(locus);
  return chances
    .filter((one) => one.probability > 0)
    .map((one) => ({
      genotype: one.text,
      phenotype: looks.get(one.text) ?? '',
      probability: one.probability,
      standardError: one.standardError ?? null,
    }))
    .toSorted((a, b) => b.probability - a.probability);
};

export const toAlleleChances = (locus: Locus, chances: readonly Chance[]): AlleleChanceModel[] =>
  locus.alleles.map((allele) => ({
    alleleId: allele.id,
    symbol: allele.symbol,
    name: allele.name,
    probability: Math.min(
      1,
      chances
        .filter((one) => one.text.split('/').includes(allele.symbol))
        .reduce((sum, one) => sum + one.probability, 0),
    ),
  }));

/** Half the summed difference: 0 when two lists of probabilities agree, 1 when they exclude each other. */
export const distance = (a: readonly Chance[], b: readonly Chance[]): number => {
  const other = new Map(b.map((one) => [one.text, one.probability]));
  return (
    a.reduce((sum, one) => sum + Math.abs(one.probability - (other.get(one.text) ?? 0)), 0) / 2
  );
};
