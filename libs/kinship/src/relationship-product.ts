import type { Pedigree } from '@linewright/pedigree';
import { checkIndices, checkLength } from './checks.js';
import type { CoancestryOptions } from './coancestry.js';
import { readFounderRelationship, type FounderBlock } from './founder-relationship.js';
import { knownInbreeding } from './inbreeding.js';
import { KinshipError } from './kinship-error.js';
import { withinFamilyVariance } from './within-family-variance.js';

export interface ProductOptions extends CoancestryOptions {
  /** Number of vectors; `x` is then n x vectors, row-major. Default 1. */
  readonly vectors?: number;
}

/**
 * A x without forming the relationship matrix A: x is gathered from young to parents, scaled by the within-family variances,
 * and handed down again (A = T D T').
 *
 * Source: Colleau JJ (2002) Genet Sel Evol 34:409-421.
 * @returns n x vectors, row-major.
 * @throws {KinshipError} `KINSHIP_LENGTH_MISMATCH`, `KINSHIP_BAD_ARGUMENT`.
 * Cost: two passes over the pedigree for all vectors together, once all F are known.
 * @example
 * const x = new Float64Array(pedigree.size).fill(1 / pedigree.size);
 * const meanRelationship = multiplyRelationship(pedigree, x); // of each individual with the whole pedigree
 */
export function multiplyRelationship(
  pedigree: Pedigree,
  x: ArrayLike<number>,
  options: ProductOptions = {},
): Float64Array {
  const vectors = options.vectors ?? 1;
  if (!Number.isInteger(vectors) || vectors < 1) {
    throw new KinshipError('KINSHIP_BAD_ARGUMENT', `vectors is ${vectors}; use 1 or more.`);
  }
  checkLength('x', x.length, pedigree.size * vectors);
  const values = Float64Array.from(x);
  const inbreeding = knownInbreeding(pedigree, options.founders);
  const block = readFounderRelationship(pedigree, options.founders);
  const { sire, dam } = pedigree;
  applyRelationship(
    { sire, dam, variance: withinFamilyVariance(pedigree, inbreeding), block },
    values,
    vectors,
  );
  return values;
}

/**
 * Mean kinship of each of the given individuals: its mean coancestry with all of them, itself included.
 *
 * Low values mark the fish whose founders are rarest in the group. Source: Ballou JD & Lacy RC (1995) in Population
 * Management for Survival and Recovery, Columbia University Press (from memory, confirmed by independent computation).
 * @returns one value for each entry of `indices`.
 * @throws {KinshipError} `KINSHIP_BAD_INDEX`.
 * Cost: as one product A x.
 */
export function meanKinship(
  pedigree: Pedigree,
  indices: ArrayLike<number>,
  options: CoancestryOptions = {},
): Float64Array {
  checkIndices(pedigree, indices);
  const weights = new Float64Array(pedigree.size);
  for (let k = 0; k < indices.length; k++) weights[indices[k]!]! += 1 / indices.length;
  const relationship = multiplyRelationship(pedigree, weights, options);
  return Float64Array.from(indices, (index) => relationship[index]! / 2);
}

/**
 * Mean coancestry of the fish of one group with those of another, every fish of the one with every fish of the other: of males with
 * females it is the mean F of their young, were each male as likely to mate with each female.
 *
 * @returns `null` when a group is empty.
 * @throws {KinshipError} `KINSHIP_BAD_INDEX`.
 * Cost: as one product A x.
 * @example
 * meanCoancestryBetween(pedigree, [brother], [sister]); // 0.25
 */
export function meanCoancestryBetween(
  pedigree: Pedigree,
  some: ArrayLike<number>,
  others: ArrayLike<number>,
  options: CoancestryOptions = {},
): number | null {
  checkIndices(pedigree, some);
  checkIndices(pedigree, others);
  if (some.length === 0 || others.length === 0) return null;
  const weights = new Float64Array(pedigree.size);
  for (let k = 0; k < some.length; k++) weights[some[k]!]! += 1 / some.length;
  const relationship = multiplyRelationship(pedigree, weights, options);
  let sum = 0;
  for (let k = 0; k < others.length; k++) sum += relationship[others[k]!]!;
  return sum / (2 * others.length);
}

/** The arrays a product needs; parents at lower indices than their young. */
export interface RelationshipFactors {
  readonly sire: Int32Array;
  readonly dam: Int32Array;
  readonly variance: Float64Array;
  /** Founders' positions are indices into these arrays. */
  readonly block: FounderBlock | undefined;
}

/** Replaces `x` (n x vectors, row-major) by A x. */
export function applyRelationship(
  { sire, dam, variance, block }: RelationshipFactors,
  x: Float64Array,
  vectors: number,
): void {
  const size = sire.length;
  for (let i = size - 1; i >= 0; i--) {
    const s = sire[i]!;
    const d = dam[i]!;
    const from = i * vectors;
    if (s >= 0) addHalf(x, s * vectors, from, vectors);
    if (d >= 0) addHalf(x, d * vectors, from, vectors);
  }
  const related = block === undefined ? undefined : relateFounders(block, x, vectors);
  for (let i = 0, at = 0; i < size; i++) {
    const own = variance[i]!;
    for (let v = 0; v < vectors; v++, at++) x[at]! *= own;
  }
  related?.();
  for (let i = 0; i < size; i++) {
    const s = sire[i]!;
    const d = dam[i]!;
    const to = i * vectors;
    if (s >= 0) addHalf(x, to, s * vectors, vectors);
    if (d >= 0) addHalf(x, to, d * vectors, vectors);
  }
}

function addHalf(x: Float64Array, to: number, from: number, vectors: number): void {
  for (let v = 0; v < vectors; v++) x[to + v]! += 0.5 * x[from + v]!;
}

/** Reads the founders' gathered shares now; the result writes their product with the founders' block. */
function relateFounders(
  { founders, relationship }: FounderBlock,
  x: Float64Array,
  vectors: number,
): () => void {
  const count = founders.length;
  const product = new Float64Array(count * vectors);
  for (let a = 0; a < count; a++) {
    for (let b = 0; b < count; b++) {
      const value = relationship[a * count + b]!;
      if (value === 0) continue;
      for (let v = 0; v < vectors; v++) {
        product[a * vectors + v]! += value * x[founders[b]! * vectors + v]!;
      }
    }
  }
  return () => {
    founders.forEach((founder, a) => {
      for (let v = 0; v < vectors; v++) x[founder * vectors + v] = product[a * vectors + v]!;
    });
  };
}
