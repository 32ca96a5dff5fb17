import {
  addFractions,
  divideFractions,
  formatFraction,
  fractionToNumber,
  multiplyFractions,
  ONE,
  subtractFractions,
  sumFractions,
  toProbability,
  type Fraction,
  type FractionInput,
} from '../fraction.js';
import { HeredityError } from '../heredity-error.js';
import { assertAtMost, MOST } from '../limits.js';
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

/** What is expected of a pair that it may be, with its weight. */
interface Component {
  readonly weight: Fraction;
  readonly expectation: CrossExpectation;
}

/**
 * The brood of a pair that may be any of several: each possibility's classes, weighted. Weights must sum to 1.
 *
 * As in {@link cross}, classes are the mean of the shares among each pair's living young; a pair with none of them is left out
 * of the classes and of `components`, whose weights then sum to 1 again, but counts in `loss`.
 * @throws HeredityError as {@link cross}; `PROBABILITIES_NOT_ONE`; `TOO_LARGE` (over 10,000 possibilities).
 */
export function crossMixture(
  possibilities: readonly PairPossibility[],
  references: readonly LocusReference[],
  options: CrossOptions = {},
): CrossExpectation & { readonly components: readonly Component[] } {
  assertAtMost(
    possibilities.length,
    MOST.possiblePairs,
    'possible pairs',
    'Remove the least likely.',
  );
  const all = sharesOfOne(possibilities).flatMap((weight, i) =>
    weight.numerator === 0n
      ? []
      : [{ weight, expectation: livingYoung(possibilities[i]!, references, options) }],
  );
  const lost = sumFractions(all.flatMap((one) => (one.expectation ? [] : [one.weight])));
  const living = subtractFractions(ONE, lost);
  const components = all.flatMap(({ weight, expectation }) =>
    expectation ? [{ weight: divideFractions(weight, living), expectation }] : [],
  );
  const first = components[0]?.expectation;
  if (all.length === 0)
    throw new HeredityError('ARGUMENT_INVALID', 'A mixture needs at least one possible pair.');
  if (!first) {
    throw new HeredityError(
      'NO_SURVIVORS',
      'Whatever the pair is, none of its young survive: every genotype falls into a lethal class.',
    );
  }
  return {
    ...mixed(components),
    loci: first.loci,
    loss: components.reduce(
      (loss, { weight, expectation }) =>
        addFractions(loss, multiplyFractions(multiplyFractions(weight, living), expectation.loss)),
      lost,
    ),
    lossReasons: [...new Set(components.flatMap((one) => one.expectation.lossReasons))],
    notes: [...new Set(components.flatMap((one) => one.expectation.notes))],
    components,
  };
}

/** The weights as shares of one. */
function sharesOfOne(possibilities: readonly PairPossibility[]): Fraction[] {
  const raw = possibilities.map((one) => toProbability(one.weight, 'weight of a possible pair'));
  const total = sumFractions(raw);
  if (Math.abs(fractionToNumber(total) - 1) > 1e-9) {
    throw new HeredityError(
      'PROBABILITIES_NOT_ONE',
      `The weights of the possible pairs sum to ${formatFraction(total)}, not 1.`,
      { sum: formatFraction(total) },
    );
  }
  return raw.map((weight) => divideFractions(weight, total));
}

/** Classes and genotypes of the young of all the pairs together. */
function mixed(components: readonly Component[]): Pick<CrossExpectation, 'classes' | 'perLocus'> {
  const classes = new Map<string, PhenotypeClass>();
  const genotypes = new Map<LocusId, Map<string, LocusGenotypes['genotypes'][number]>>();
  for (const { weight, expectation } of components) {
    for (const one of expectation.classes) mix(classes, one.key, one, weight);
    for (const { locus, genotypes: list } of expectation.perLocus) {
      const at = genotypes.get(locus) ?? new Map<string, LocusGenotypes['genotypes'][number]>();
      for (const one of list) mix(at, one.text, one, weight);
      genotypes.set(locus, at);
    }
  }
  return {
    classes: byFrequency([...classes.values()]),
    perLocus: [...genotypes].map(([locus, at]) => ({
      locus,
      genotypes: byFrequency([...at.values()]),
    })),
  };
}

/** Null where none of the young live. */
function livingYoung(
  parents: CrossParents,
  references: readonly LocusReference[],
  options: CrossOptions,
): CrossExpectation | null {
  try {
    return cross(parents, references, options);
  } catch (error) {
    if (error instanceof HeredityError && error.code === 'NO_SURVIVORS') return null;
    throw error;
  }
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
 * {@link crossMixture}. Throws `TOO_LARGE` beyond 10,000 possibilities.
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
      assertAtMost(
        list.length * options.length,
        MOST.possiblePairs,
        'pairs that the two may be',
        'Look at fewer uncertain loci at a time.',
      );
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
