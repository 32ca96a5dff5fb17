import { defineLocus, parseGenotype, type Locus } from '@linewright/heredity';
import type { LineBelief, LookAim } from '@linewright/mating';

/** A made-up locus with a recessive allele `a`: fish with two show `recessive`, all others `dominant`. */
export const recessive = (id: string): Locus =>
  defineLocus({
    id,
    name: `Locus ${id}`,
    alleles: [
      { id: 'A', symbol: 'A', name: 'wild' },
      { id: 'a', symbol: 'a', name: 'new' },
    ],
    phenotypes: [
      { id: 'dominant', name: 'dominant' },
      { id: 'recessive', name: 'recessive' },
    ],
    expression: [
      { genotype: 'A/-', shows: [{ phenotype: 'dominant', probability: '1' }] },
      { genotype: 'a/a', shows: [{ phenotype: 'recessive', probability: '1' }] },
    ],
  });

export const showing = (id: string, { worth = 0, required = false } = {}): LookAim => ({
  look: { show: { [id]: 'recessive' } },
  wanted: true,
  worth,
  required,
});

/** Unrelated fish, male and female by turns, of known genotypes; a single genotype stands for all fish. */
export function beliefOf({
  fish,
  loci = [],
}: {
  readonly fish: number;
  readonly loci?: readonly (readonly [Locus, ...string[]])[];
}): LineBelief {
  const ids = Array.from({ length: fish }, (_, k) => `fish ${String(k)}`);
  return {
    fish: ids,
    sex: ids.map((_, k) => (k % 2 === 0 ? 'male' : 'female')),
    coancestry: Float64Array.from({ length: fish ** 2 }, (_, k) =>
      k % (fish + 1) === 0 ? 0.5 : 0,
    ),
    traits: [],
    loci: loci.map(([locus, ...genotypes]) => ({
      locus,
      groups: ids.map((_, k) => {
        const genotype = parseGenotype(locus, genotypes[k] ?? genotypes[0]!);
        return { fish: [k], outcomes: [{ genotypes: [genotype], probability: 1 }] };
      }),
    })),
  };
}
