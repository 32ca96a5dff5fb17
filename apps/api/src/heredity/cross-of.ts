import {
  expectPhenotypes,
  formatGenotype,
  type GenotypeInput,
  type GenotypeSet,
  type Locus,
  type WeightedGenotypeInput,
} from '@linewright/heredity';
import { toCrossExpectation } from '../shapes/heredity.mapper.js';
import type { CrossExpectationModel } from '../shapes/heredity.model.js';

/**
 * What two parents may give, with what was assumed of those known in part.
 *
 * Cost: with each locus that both may carry in several ways two to three times as much; some seconds for ten.
 *
 * @throws HeredityError of genotypes that cannot be used, and `TOO_LARGE`.
 */
export const crossOf = (
  sire: GenotypeSet,
  dam: GenotypeSet,
  loci: readonly Locus[],
  broodSize: number | null,
): CrossExpectationModel => {
  const own = loci.filter((one) => one.origin === 'own');
  const found = expectPhenotypes(sire, dam, { loci: own });
  return toCrossExpectation(found, broodSize, { sire, dam, loci: own }, [
    ...assumptions('sire', sire, loci, found.computed),
    ...assumptions('dam', dam, loci, found.computed),
  ]);
};

const isSpelledOut = (input: GenotypeInput | undefined): input is WeightedGenotypeInput[] =>
  Array.isArray(input) && typeof input[0] === 'object';

/** "The sire at double tail: Dt/Dt 33 %, Dt/dt 67 %": the brood is then an average over pairs that may be. */
const assumptions = (
  role: string,
  set: GenotypeSet,
  loci: readonly Locus[],
  computed: readonly string[],
): string[] =>
  Object.entries(set).flatMap(([id, input]) => {
    const locus = loci.find((one) => one.id === id);
    if (locus === undefined || !computed.includes(id) || !isSpelledOut(input)) return [];
    const parts = input.map(({ genotype, probability }) => {
      const text = typeof genotype === 'string' ? genotype : formatGenotype(locus, genotype);
      return `${text} ${(Number(probability) * 100).toFixed(1)} %`;
    });
    return [
      `${locus.name}: the ${role} is known in part; taken as ${parts.join(', ')} by the allele frequencies of founders. One real pair is one of these, so a brood may differ from the average.`,
    ];
  });
