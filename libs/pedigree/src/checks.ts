import type { Pedigree } from './pedigree.js';
import { PedigreeError } from './pedigree-error.js';

export function checkIndex(pedigree: Pedigree, index: number): void {
  if (Number.isInteger(index) && index >= 0 && index < pedigree.size) return;
  throw new PedigreeError(
    'PEDIGREE_BAD_INDEX',
    `${index} is not an index of this pedigree of ${pedigree.size}; use a whole number from 0 to ${pedigree.size - 1}.`,
  );
}

/** A count of generations: a whole number, 0 or more, or infinity where the caller allows it. */
export function checkWhole(name: string, value: number, allowInfinity = false): void {
  if ((Number.isInteger(value) && value >= 0) || (allowInfinity && value === Infinity)) return;
  throw new PedigreeError(
    'PEDIGREE_BAD_ARGUMENT',
    `${name} is ${value}; use a whole number of 0 or more.`,
  );
}
