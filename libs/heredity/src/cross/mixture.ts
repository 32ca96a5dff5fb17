import {
  addFractions,
  formatFraction,
  fraction,
  fractionToNumber,
  multiplyFractions,
  ONE,
  sumFractions,
  toProbability,
  ZERO,
  type Fraction,
  type FractionInput,
} from '../fraction.js';
import { HeredityError } from '../heredity-error.js';
import type { Genotype, LocusId, LocusReference } from '../locus.js';
import { byFrequency } from './class-lists.js';
import { cross, genotypeOf, resolveLoci } from './cross.js';
import type {
  CrossExpectation,
  CrossOptions,
  CrossParents,
  LocusGenotypes,
  PhenotypeClass,
} from './cross-types.js';

/** One thing a pair may be, with its weight. */
export interface PairPossibility extends CrossParents {
  readonly weight: FractionInput;
}

/**
 * The brood of a pair that may be any of several: each possibility's classes, weighted. Weights must sum to 1.
 * @throws HeredityError as {@link cross}; `PROBABILITIES_NOT_ONE`.
 */
export function crossMixture(
  possibilities: readonly PairPossibility[],
  references: readonly LocusReference[],
  options: CrossOptions = {},
): CrossExpectation & {
  readonly components: readonly {
    readonly weight: Fraction;
    readonly expectation: CrossExpectation;
  }[];
} {
  const raw = possibilities.map((one) => toProbability(one.weight, 'weight of a possible pair'));
  const total = sumFractions(raw);
  if (Math.abs(fractionToNumber(total) - 1) > 1e-9) {
    throw new HeredityError(
      'PROBABILITIES_NOT_ONE',
      `The weights of the possible pairs sum to ${formatFraction(total)}, not 1.`,
      { sum: formatFraction(total) },
    );
  }
  const components = possibilities.flatMap((one, i) => {
    const weight = raw[i] ?? ZERO;
    if (weight.numerator === 0n) return [];
    const exact = fraction(
      weight.numerator * total.denominator,
      weight.denominator * total.numerator,
    );
    return [{ weight: exact, expectation: cross(one, references, options) }];
  });
  const first = components[0]?.expectation;
  if (!first)
    throw new HeredityError('ARGUMENT_INVALID', 'A mixture needs at least one possible pair.');
  const classes = new Map<string, PhenotypeClass>();
  const genotypes = new Map<LocusId, Map<string, LocusGenotypes['genotypes'][number]>>();
  let loss = ZERO;
  for (const { weight, expectation } of components) {
    loss = addFractions(loss, multiplyFractions(weight, expectation.loss));
    for (const one of expectation.classes) mix(classes, one.key, one, weight);
    for (const { locus, genotypes: list } of expectation.perLocus) {
      const at = genotypes.get(locus) ?? new Map<string, LocusGenotypes['genotypes'][number]>();
      for (const one of list) mix(at, one.text, one, weight);
      genotypes.set(locus, at);
    }
  }
  return {
    loci: first.loci,
    classes: byFrequency([...classes.values()]),
    loss,
    lossReasons: [...new Set(components.flatMap((one) => one.expectation.lossReasons))],
    perLocus: [...genotypes].map(([locus, at]) => ({
      locus,
      genotypes: byFrequency([...at.values()]),
    })),
    notes: [...new Set(components.flatMap((one) => one.expectation.notes))],
    components,
  };
}

function mix<T extends { readonly probability: Fraction }>(
  into: Map<string, T>,
  key: string,
  one: T,
  weight: Fraction,
): void {
  const part = multiplyFractions(one.probability, weight);
  const earlier = into.get(key);
  into.set(key, { ...one, probability: earlier ? addFractions(earlier.probability, part) : part });
}

/**
 * Every certain pair an uncertain one may be, with weights, treating loci and parents as independent: the input of
 * {@link crossMixture}. Throws `ARGUMENT_INVALID` beyond 10,000 possibilities.
 */
export function certainPairs(
  parents: CrossParents,
  references: readonly LocusReference[],
): PairPossibility[] {
  let list: {
    weight: Fraction;
    sire: Record<LocusId, Genotype>;
    dam: Record<LocusId, Genotype>;
  }[] = [{ weight: ONE, sire: {}, dam: {} }];
  for (const locus of resolveLoci(references)) {
    for (const parent of ['sire', 'dam'] as const) {
      const options = genotypeOf(parents[parent], locus, parent);
      if (list.length * options.length > 10_000) {
        throw new HeredityError(
          'ARGUMENT_INVALID',
          'Too many possible pairs; look at fewer uncertain loci at a time.',
        );
      }
      list = list.flatMap((one) =>
        options.map(({ genotype, probability }) => ({
          ...one,
          weight: multiplyFractions(one.weight, probability),
          [parent]: { ...one[parent], [locus.id]: genotype },
        })),
      );
    }
  }
  return list;
}
