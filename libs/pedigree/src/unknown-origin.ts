import { isRecorded, type Pedigree } from './pedigree.js';

/** How far an F can be trusted: the parents' whole origin is known or declared; some of it is not; a parent itself is not known. */
export type InbreedingBasis = 'known' | 'at-least' | 'unknown';

/**
 * 1 where something behind an individual is of unknown origin: itself or a recorded ancestor has a parent that is not on record, and
 * `declared` does not say that it is known to be unrelated to the rest. What is told of one young of a hidden parent holds for that
 * parent. Every F takes such origins as unrelated, so it is the least that F can be.
 *
 * @param declared 1 for individuals whose unknown parents are known to be unrelated to all others.
 * Cost: two passes.
 */
export function unknownOrigin(pedigree: Pedigree, declared: Uint8Array): Uint8Array {
  const { size, sire, dam, hidden } = pedigree;
  const told = Uint8Array.from(declared);
  if (hidden !== undefined) {
    for (let i = 0; i < size; i++) {
      if (declared[i] !== 1) continue;
      for (const parent of [sire[i]!, dam[i]!]) if (hidden[parent] === 1) told[parent] = 1;
    }
  }
  const unknown = new Uint8Array(size);
  for (let i = 0; i < size; i++) {
    for (const parent of [sire[i]!, dam[i]!]) {
      if (parent < 0 ? told[i] !== 1 : unknown[parent] === 1) unknown[i] = 1;
    }
  }
  return unknown;
}

/** The basis of an individual's own F, given {@link unknownOrigin}. */
export function basisOfInbreeding(
  pedigree: Pedigree,
  unknown: Uint8Array,
  individual: number,
): InbreedingBasis {
  const { sire, dam } = pedigree;
  if (unknown[individual] !== 1) return 'known';
  const bothRecorded =
    isRecorded(pedigree, sire[individual]!) && isRecorded(pedigree, dam[individual]!);
  return bothRecorded ? 'at-least' : 'unknown';
}
