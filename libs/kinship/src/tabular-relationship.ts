import type { Pedigree } from '@linewright/pedigree';
import { readFounderRelationship, type FounderRelationship } from './founder-relationship.js';
import { KinshipError } from './kinship-error.js';

const LARGEST = 8192;

/**
 * Additive relationship matrix A of the whole pedigree by the tabular method: a_ij = (a_i,sire(j) + a_i,dam(j)) / 2 for i
 * before j, a_jj = 1 + a_sire,dam / 2. Twice the coancestry. The plainest method, and the check on all others.
 *
 * Source: Emik LO & Terrill CE (1949) J Hered 40:51-55; Henderson CR (1976) Biometrics 32:69-83.
 * @returns n x n, row-major.
 * @throws {KinshipError} `KINSHIP_BAD_ARGUMENT` above 8192 individuals: use blocks or products there.
 * Cost: n^2 time and memory.
 */
export function tabularRelationship(
  pedigree: Pedigree,
  options: { readonly founders?: FounderRelationship } = {},
): Float64Array {
  const { size, sire, dam } = pedigree;
  if (size > LARGEST) {
    throw new KinshipError(
      'KINSHIP_BAD_ARGUMENT',
      `The whole matrix of ${size} individuals is too large (at most ${LARGEST}). Use coancestryBlock or multiplyRelationship.`,
    );
  }
  const block = readFounderRelationship(pedigree, options.founders);
  const a = new Float64Array(size * size);
  const done: number[] = [];
  const place = (j: number, relationshipWith: (i: number) => number, own: number): void => {
    for (const i of done) {
      const value = relationshipWith(i);
      a[i * size + j] = value;
      a[j * size + i] = value;
    }
    a[j * size + j] = own;
    done.push(j);
  };
  if (block !== undefined) {
    const { founders, relationship, positionOf } = block;
    // Founders related to others come first, whatever their index, so that all that follows meets them.
    founders.forEach((j, at) => {
      const row = at * founders.length;
      place(j, (i) => relationship[row + positionOf.get(i)!]!, relationship[row + at]!);
    });
  }
  for (let j = 0; j < size; j++) {
    if (block?.positionOf.has(j) === true) continue;
    const s = sire[j]!;
    const d = dam[j]!;
    const half = (i: number): number =>
      ((s < 0 ? 0 : a[i * size + s]!) + (d < 0 ? 0 : a[i * size + d]!)) / 2;
    place(j, half, s < 0 || d < 0 ? 1 : 1 + a[s * size + d]! / 2);
  }
  return a;
}
