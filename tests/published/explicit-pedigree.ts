import { tabularRelationship } from '@linewright/kinship';
import { buildPedigree, type Pedigree, type PedigreeOptions } from '@linewright/pedigree';

/** One row of a printed pedigree: individual, sire, dam. */
export type PedigreeRow = readonly [
  id: string | number,
  sire: string | number | null,
  dam: string | number | null,
];

/** Textbook pedigrees leave founders unlisted and, in selfing, give one parent twice. */
export function explicitPedigree(
  rows: readonly PedigreeRow[],
  options: PedigreeOptions = { unlistedParents: 'add', allowSelfing: true },
): Pedigree {
  const text = (id: string | number | null) => (id === null ? null : String(id));
  return buildPedigree(
    rows.map(([id, sire, dam]) => ({ id: String(id), sire: text(sire), dam: text(dam) })),
    options,
  );
}

/** The part of A for the given individuals, in their order. */
export function relationshipAmong(
  pedigree: Pedigree,
  ids: readonly (string | number)[],
): number[][] {
  const a = tabularRelationship(pedigree);
  const index = ids.map((id) => pedigree.indexOf(String(id)));
  return index.map((i) => index.map((j) => a[i * pedigree.size + j]!));
}

/** Inverse of a small matrix, by Gauss and Jordan's elimination: for checks only. */
export function inverseOf(matrix: readonly (readonly number[])[]): number[][] {
  const size = matrix.length;
  const work = matrix.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))]);
  for (let k = 0; k < size; k++) {
    const pivot = work[k]!;
    const scale = pivot[k]!;
    for (let j = 0; j < 2 * size; j++) pivot[j]! /= scale;
    for (let i = 0; i < size; i++) {
      if (i === k) continue;
      const factor = work[i]![k]!;
      for (let j = 0; j < 2 * size; j++) work[i]![j]! -= factor * pivot[j]!;
    }
  }
  return work.map((row) => row.slice(size));
}

/** Half a unit in the last printed place, and a hair for ties that binary fractions cannot sit on exactly. */
export const lastPlace = (decimals: number): number => 0.5 * 10 ** -decimals + 1e-12;
