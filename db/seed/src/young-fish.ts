import type { RandomSource } from './random-source.js';
import { type DemoLocus, type Genome, LOCI, doses } from './simulated-fish.js';
import { TRAITS } from './trait-model.js';

/** Everything about a fish that its parents and chance decide. */
export interface Makings {
  readonly sex: 'male' | 'female';
  readonly genome: Genome;
  readonly breedingValues: readonly number[];
  readonly values: readonly number[];
}

interface Parent {
  readonly genome: Genome;
  readonly breedingValues: readonly number[];
}

/** A bought fish with the doses given, its breeding values drawn around the base. */
export function foundingMakings(
  sex: 'male' | 'female',
  given: Partial<Readonly<Record<DemoLocus, 0 | 1 | 2>>>,
  random: RandomSource,
): Makings {
  const genome = Object.fromEntries(
    LOCI.map((locus) => {
      const count = given[locus] ?? 0;
      return [locus, [count > 0 ? 1 : 0, count > 1 ? 1 : 0]];
    }),
  ) as unknown as Genome;
  const breedingValues = TRAITS.map((trait) => random.normal(0, trait.additive));
  return { sex, genome, breedingValues, values: valuesOf(sex, genome, breedingValues, 0, random) };
}

/**
 * One fry: at each locus one allele of each parent with probability 1/2, unlinked; breeding values are the parents' mean
 * plus a Mendelian part with half the additive variance, less with the parents' inbreeding.
 */
export function youngMakings(
  sire: Parent,
  dam: Parent,
  inbreeding: { readonly own: number; readonly parentsMean: number },
  maleShare: number,
  random: RandomSource,
): Makings {
  const sex = random.chance(maleShare) ? 'male' : 'female';
  const genome = Object.fromEntries(
    LOCI.map((locus) => [locus, [random.pick(sire.genome[locus]), random.pick(dam.genome[locus])]]),
  ) as unknown as Genome;
  const segregation = Math.sqrt((1 - inbreeding.parentsMean) / 2);
  const breedingValues = TRAITS.map((trait, index) => {
    const mean = ((sire.breedingValues[index] ?? 0) + (dam.breedingValues[index] ?? 0)) / 2;
    return mean + random.normal(0, trait.additive * segregation);
  });
  const values = valuesOf(sex, genome, breedingValues, inbreeding.own, random);
  return { sex, genome, breedingValues, values };
}

function valuesOf(
  sex: 'male' | 'female',
  genome: Genome,
  breedingValues: readonly number[],
  inbreeding: number,
  random: RandomSource,
): number[] {
  const dose = doses({ genome }, 'dt');
  return TRAITS.map((trait, index) => {
    if (trait.mean === null) return 0;
    if (trait.kind === 'yes_no') return random.chance(0.03 + 0.08 * inbreeding) ? 0 : 1;
    const extra = dose === 0 ? 0 : (trait.doubleTail[dose - 1] ?? 0);
    const mean = trait.mean[sex === 'male' ? 0 : 1] + (breedingValues[index] ?? 0) + extra;
    const value = random.normal(mean, trait.environmental);
    const stepped = Math.round(value / trait.step) * trait.step;
    return Math.min(trait.maximum ?? stepped, Math.max(trait.minimum ?? stepped, stepped));
  });
}

/** Sum of what every person likes, each in units of its usual spread. */
export function looks(values: readonly number[], sex: 'male' | 'female'): number {
  const of = (key: string) => {
    const index = TRAITS.findIndex((trait) => trait.key === key);
    const trait = TRAITS[index];
    const mean = trait?.mean?.[sex === 'male' ? 0 : 1] ?? 0;
    const deviation = Math.hypot(trait?.additive ?? 0, trait?.environmental ?? 0) || 1;
    return ((values[index] ?? 0) - mean) / deviation;
  };
  const bent = values[TRAITS.findIndex((trait) => trait.key === 'straight_spine')] === 0;
  return (
    of('caudal_spread') +
    0.6 * of('colour_evenness') +
    0.6 * of('fin_balance') +
    0.3 * of('ventral_condition') +
    0.3 * of('dorsal_width') -
    (bent ? 10 : 0)
  );
}
