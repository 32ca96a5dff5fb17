import { generationDepth, type Pedigree } from '@linewright/pedigree';
import type { BredSoFar } from './forecast-task.js';

/** Sires, dams and pairs of the line's youngest generation whose parents are both on record. */
export const bredSoFar = (pedigree: Pedigree, members: readonly number[]): BredSoFar | null => {
  const depth = generationDepth(pedigree);
  const bred = members.filter((i) => pedigree.sire[i]! >= 0 && pedigree.dam[i]! >= 0);
  const last = bred.reduce((most, i) => Math.max(most, depth[i]!), 0);
  const young = bred.filter((i) => depth[i] === last);
  if (young.length === 0) return null;
  return {
    sires: new Set(young.map((i) => pedigree.sire[i]!)).size,
    dams: new Set(young.map((i) => pedigree.dam[i]!)).size,
    broods: new Set(young.map((i) => `${pedigree.sire[i]!} ${pedigree.dam[i]!}`)).size,
  };
};
