import { weighInheritance, type WeighedInheritance } from '@linewright/merit';
import { pedigreeFromArrays } from '@linewright/pedigree';

/** Weighs ways of inheritance over a pedigree given as arrays, which can pass between threads. */
export const weighLooks = (
  sire: Int32Array,
  dam: Int32Array,
  seen: Int8Array,
): WeighedInheritance => weighInheritance(pedigreeFromArrays(sire, dam), seen);
