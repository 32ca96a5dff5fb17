import { findLocus } from './catalogue/catalogue.js';
import {
  addFractions,
  compareFractions,
  divideFractions,
  formatFraction,
  fractionToNumber,
  ONE,
  sumFractions,
  toProbability,
  type Fraction,
  type FractionInput,
} from './fraction.js';
import { HeredityError } from './heredity-error.js';
import type { AlleleId, Genotype, Locus, LocusId, LocusReference } from './locus.js';

/** One possible genotype of a fish and how likely it is. */
export interface WeightedGenotypeInput {
  readonly genotype: string | Genotype;
  readonly probability: FractionInput;
}

/** A genotype as text (`Bl/bl`), as allele ids, or uncertain: several with probabilities that sum to 1. */
export type GenotypeInput = string | Genotype | readonly WeightedGenotypeInput[];

/** What is known of a fish, by locus. */
export type GenotypeSet = Readonly<Record<LocusId, GenotypeInput>>;

export interface WeightedGenotype {
  readonly genotype: Genotype;
  readonly probability: Fraction;
}

const UNKNOWN_ALLELE = '-';

function readSymbol(locus: Locus, symbol: string, notationId: string | undefined): AlleleId {
  const known: Record<string, AlleleId> = Object.fromEntries(
    locus.alleles.map((one) => [one.symbol, one.id]),
  );
  let symbols = known;
  if (notationId !== undefined) {
    const notation = locus.notations.find((one) => one.id === notationId);
    if (!notation) {
      throw new HeredityError(
        'GENOTYPE_INVALID',
        `Locus ${locus.id} has no notation "${notationId}"; known: ${locus.notations.map((one) => one.id).join(', ') || 'none'}.`,
        { locus: locus.id, notation: notationId },
      );
    }
    symbols = notation.symbols;
  }
  const found = Object.hasOwn(symbols, symbol)
    ? symbols[symbol]
    : locus.alleles.find((one) => one.id === symbol)?.id;
  if (found === undefined) {
    throw new HeredityError(
      'ALLELE_UNKNOWN',
      `"${symbol}" is not an allele of ${locus.id} (${locus.name}). Write one of ${Object.keys(symbols).join(', ') || '(no alleles recorded)'}; capitals matter.`,
      { locus: locus.id, allele: symbol },
    );
  }
  return found;
}

function readParts(
  locus: Locus,
  text: string,
  notation: string | undefined,
): [AlleleId | null, AlleleId | null] {
  const parts = text.split('/').map((part) => part.trim());
  const [first, second] = parts;
  if (parts.length !== 2 || !first || !second) {
    const example = locus.alleles[0]?.symbol ?? 'A';
    throw new HeredityError(
      'GENOTYPE_INVALID',
      `"${text}" is not a genotype of ${locus.id}. Write two alleles with a slash, as ${example}/${locus.alleles[1]?.symbol ?? example}.`,
      { locus: locus.id, genotype: text },
    );
  }
  const read = (symbol: string) =>
    symbol === UNKNOWN_ALLELE ? null : readSymbol(locus, symbol, notation);
  return [read(first), read(second)];
}

/**
 * Reads `Bl/bl`: two alleles, by symbol or by id, with a slash. The order of writing is kept.
 *
 * @param notation one of the locus's other notations, for example `wallbrunn`, in which V/V is steel.
 * @throws HeredityError `LOCUS_UNKNOWN`, `ALLELE_UNKNOWN`, `GENOTYPE_INVALID`, `GENOTYPE_INCOMPLETE` (for `C/-`).
 * @example parseGenotype('bl', 'V/v', 'wallbrunn') // ['steel', 'turquoise']
 */
export function parseGenotype(ref: LocusReference, text: string, notation?: string): Genotype {
  const locus = findLocus(ref);
  const [first, second] = readParts(locus, text, notation);
  if (first === null || second === null) {
    throw new HeredityError(
      'GENOTYPE_INCOMPLETE',
      `"${text}" leaves an allele of ${locus.id} open. Give both alleles, or a probability for each possible genotype.`,
      { locus: locus.id, genotype: text },
    );
  }
  return [first, second];
}

/**
 * Every genotype that fits a partly known one: `C/-` gives C/C and C/c, `-/-` all.
 * @throws HeredityError as {@link parseGenotype}, except that a dash is allowed.
 */
export function parsePartialGenotype(
  ref: LocusReference,
  text: string,
  notation?: string,
): Genotype[] {
  const locus = findLocus(ref);
  const [first, second] = readParts(locus, text, notation);
  if (first !== null && second !== null) return [[first, second]];
  const fixed = first ?? second;
  return allGenotypes(locus).filter((one) => fixed === null || one.includes(fixed));
}

/** All unordered genotypes of a locus, n(n+1)/2 of them for n alleles, in the order of its alleles. */
export function allGenotypes(ref: LocusReference): Genotype[] {
  const ids = findLocus(ref).alleles.map((one) => one.id);
  return ids.flatMap((a, i) => ids.slice(i).map((b): Genotype => [a, b]));
}

/** Whether two genotypes hold the same alleles, in whatever order. */
export function sameGenotype(a: Genotype, b: Genotype): boolean {
  return (a[0] === b[0] && a[1] === b[1]) || (a[0] === b[1] && a[1] === b[0]);
}

/** The genotype with its alleles in the order of the locus. */
export function canonicalGenotype(ref: LocusReference, genotype: Genotype): Genotype {
  const locus = findLocus(ref);
  const place = (id: AlleleId) => {
    const index = locus.alleles.findIndex((one) => one.id === id);
    if (index < 0) {
      throw new HeredityError('ALLELE_UNKNOWN', `"${id}" is not an allele of ${locus.id}.`, {
        locus: locus.id,
        allele: id,
      });
    }
    return index;
  };
  return place(genotype[0]) <= place(genotype[1]) ? genotype : [genotype[1], genotype[0]];
}

/** `Bl/bl`: symbols in the order of the locus. Throws `ALLELE_UNKNOWN`. */
export function formatGenotype(ref: LocusReference, genotype: Genotype): string {
  const locus = findLocus(ref);
  return canonicalGenotype(locus, genotype)
    .map((id) => locus.alleles.find((one) => one.id === id)?.symbol ?? id)
    .join('/');
}

/** Whether a genotype input is one written-out genotype, and not a list of weighted ones. */
function isGenotype(input: Exclude<GenotypeInput, string>): input is Genotype {
  return input.length === 2 && typeof input[0] === 'string';
}

/**
 * Any input as a distribution: a certain genotype has probability 1. The order of alleles is kept (phase).
 * @throws HeredityError as {@link parseGenotype}; `PROBABILITY_OUT_OF_RANGE`; `PROBABILITIES_NOT_ONE`.
 */
export function readGenotype(ref: LocusReference, input: GenotypeInput): WeightedGenotype[] {
  const locus = findLocus(ref);
  const one = (value: string | Genotype): Genotype => {
    if (typeof value === 'string') return parseGenotype(locus, value);
    if (value.length !== 2) {
      throw new HeredityError('GENOTYPE_INVALID', `A genotype of ${locus.id} has two alleles.`);
    }
    canonicalGenotype(locus, value);
    return value;
  };
  if (typeof input === 'string' || isGenotype(input)) {
    return [{ genotype: one(input), probability: ONE }];
  }
  const merged: WeightedGenotype[] = [];
  for (const each of input) {
    const genotype = one(each.genotype);
    const probability = toProbability(each.probability, `probability of a genotype at ${locus.id}`);
    const same = merged.findIndex(
      (m) => m.genotype[0] === genotype[0] && m.genotype[1] === genotype[1],
    );
    const earlier = merged[same];
    if (earlier) {
      merged[same] = { genotype, probability: addFractions(earlier.probability, probability) };
    } else merged.push({ genotype, probability });
  }
  const total = sumFractions(merged.map((m) => m.probability));
  // Probabilities that come from computing in doubles miss 1 by rounding; anything more is a mistake.
  if (Math.abs(fractionToNumber(total) - 1) > 1e-9) {
    throw new HeredityError(
      'PROBABILITIES_NOT_ONE',
      `The probabilities of the genotypes at ${locus.id} sum to ${formatFraction(total)}, not 1.`,
      { locus: locus.id, sum: formatFraction(total) },
    );
  }
  const exact = compareFractions(total, ONE) === 0;
  return merged
    .filter((m) => m.probability.numerator !== 0n)
    .map((m) => (exact ? m : { ...m, probability: divideFractions(m.probability, total) }));
}

/** Whether a genotype fits a pattern such as `C/-`, `c/c` or `-/-`. */
export function genotypeFits(ref: LocusReference, genotype: Genotype, pattern: string): boolean {
  const [first, second] = readParts(findLocus(ref), pattern, undefined);
  if (first === null && second === null) return true;
  if (first === null || second === null) return genotype.includes(first ?? second ?? '');
  return sameGenotype(genotype, [first, second]);
}
