import { addFractions, multiplyFractions, ZERO, type Fraction } from '../fraction.js';
import {
  allGenotypes,
  formatGenotype,
  readGenotype,
  sameGenotype,
  type GenotypeInput,
} from '../genotype.js';
import { findLocus } from '../catalogue/catalogue.js';
import { HeredityError } from '../heredity-error.js';
import type { LocusReference } from '../locus.js';
import { crossGenotypes } from './cross-genotypes.js';
import type { LocusGenotypes } from './cross-types.js';

export interface MatingSeriesInput {
  readonly locus: LocusReference;
  readonly start: GenotypeInput;
  /** Every fish with itself (the limit of close line-breeding at one locus), or all with fish of one genotype. */
  readonly scheme: 'selfing' | { readonly backcrossTo: GenotypeInput };
  readonly generations: number;
}

/**
 * Genotype shares at one locus over generations of selfing or backcrossing, exact; entry 0 is the start.
 *
 * Selfing halves heterozygosity each time (Mendel 1866); backcrossing halves what is not of the recurrent parent. Where some
 * genotypes die, the shares are of the survivors and every living fish leaves as many young.
 * @throws HeredityError as `crossGenotypes`; `ARGUMENT_INVALID` unless `generations` is a whole number from 0 to 200.
 * @example matingSeries({ locus: 'dt', start: 'Dt/dt', scheme: 'selfing', generations: 2 })[2] // 3/8, 1/4, 3/8
 */
export function matingSeries(input: MatingSeriesInput): LocusGenotypes['genotypes'][] {
  const { generations, scheme } = input;
  if (!Number.isInteger(generations) || generations < 0 || generations > 200) {
    throw new HeredityError(
      'ARGUMENT_INVALID',
      `Generations must be a whole number from 0 to 200, not ${String(generations)}.`,
    );
  }
  const locus = findLocus(input.locus);
  const genotypes = allGenotypes(locus);
  const place = (genotype: readonly [string, string]) =>
    genotypes.findIndex((one) => sameGenotype(one, genotype));
  const young = (sire: GenotypeInput, dam: GenotypeInput) => {
    const shares: Fraction[] = genotypes.map(() => ZERO);
    const parents = { sire: { [locus.id]: sire }, dam: { [locus.id]: dam } };
    for (const one of crossGenotypes(parents, [locus]).classes) {
      const genotype = one.genotypes[locus.id];
      if (genotype) shares[place(genotype)] = one.probability;
    }
    return shares;
  };
  // Only of genotypes that occur: a lethal one has no young, and never comes to breed.
  const rows = new Map<number, Fraction[]>();
  const rowOf = (from: number): Fraction[] => {
    const genotype = genotypes[from] ?? ['', ''];
    const row =
      rows.get(from) ?? young(genotype, scheme === 'selfing' ? genotype : scheme.backcrossTo);
    rows.set(from, row);
    return row;
  };
  let now: Fraction[] = genotypes.map(() => ZERO);
  for (const { genotype, probability } of readGenotype(locus, input.start)) {
    now[place(genotype)] = addFractions(now[place(genotype)] ?? ZERO, probability);
  }
  const series = [now];
  for (let t = 0; t < generations; t++) {
    const breeding = now.flatMap((share, from) =>
      share.numerator > 0n ? [{ share, row: rowOf(from) }] : [],
    );
    now = genotypes.map((_, to) =>
      breeding.reduce(
        (sum, { share, row }) => addFractions(sum, multiplyFractions(share, row[to] ?? ZERO)),
        ZERO,
      ),
    );
    series.push(now);
  }
  return series.map((shares) =>
    genotypes.map((genotype, i) => ({
      genotype,
      text: formatGenotype(locus, genotype),
      probability: shares[i] ?? ZERO,
    })),
  );
}
