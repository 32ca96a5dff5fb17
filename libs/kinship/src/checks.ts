import type { Pedigree } from '@linewright/pedigree';
import { KinshipError } from './kinship-error.js';

export function checkIndex(pedigree: Pedigree, index: number): void {
  if (Number.isInteger(index) && index >= 0 && index < pedigree.size) return;
  throw new KinshipError(
    'KINSHIP_BAD_INDEX',
    `There is no individual ${index}; indices run from 0 to ${pedigree.size - 1}.`,
  );
}

export function checkIndices(pedigree: Pedigree, indices: ArrayLike<number>): void {
  for (let k = 0; k < indices.length; k++) checkIndex(pedigree, indices[k]!);
}

export function checkLength(what: string, length: number, expected: number): void {
  if (length === expected) return;
  throw new KinshipError(
    'KINSHIP_LENGTH_MISMATCH',
    `${what} has length ${length}; it must be ${expected}.`,
  );
}
