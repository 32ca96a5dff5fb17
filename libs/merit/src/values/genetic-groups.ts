import type { SparseMatrix } from '@linewright/kinship';
import type { Pedigree } from '@linewright/pedigree';

/** Groups of the unknown parents: lines or origins whose founders do not have one mean. */
export interface FounderGroups {
  readonly names: readonly string[];
  /** Group of each fish's unknown sire and dam; -1 where the parent is known or belongs to the base, which stands at 0. */
  readonly sire: Int32Array;
  readonly dam: Int32Array;
}

/** The same group for both unknown parents of a fish. */
export function groupsOfFounders(
  { size, sire, dam }: Pick<Pedigree, 'size' | 'sire' | 'dam'>,
  names: readonly string[],
  groupOf: Int32Array,
): FounderGroups {
  const of = (parent: Int32Array): Int32Array =>
    Int32Array.from({ length: size }, (_, i) => (parent[i]! < 0 ? groupOf[i]! : -1));
  return { names, sire: of(sire), dam: of(dam) };
}

/** Share of each group in each fish and in itself: `shares[level * groups + group]`; one pass. */
export function groupShares(
  { size, sire, dam }: Pick<Pedigree, 'size' | 'sire' | 'dam'>,
  groups: FounderGroups,
): Float64Array {
  const count = groups.names.length;
  const shares = new Float64Array((size + count) * count);
  for (let i = 0; i < size; i++) {
    for (const [parent, group] of [
      [sire[i]!, groups.sire[i]!],
      [dam[i]!, groups.dam[i]!],
    ] as const) {
      if (parent < 0) {
        if (group >= 0) shares[i * count + group]! += 0.5;
        continue;
      }
      for (let g = 0; g < count; g++) shares[i * count + g]! += 0.5 * shares[parent * count + g]!;
    }
  }
  for (let g = 0; g < count; g++) shares[(size + g) * count + g] = 1;
  return shares;
}

/**
 * Inverse of the relationship matrix with rows for groups behind the fish's: Henderson's rules with a group in the place of each
 * unknown parent, so that solutions hold the group's part (Quaas 1988).
 *
 * @param within the within-family variance of each fish.
 */
export function groupedInverse(
  { size, sire, dam }: Pick<Pedigree, 'size' | 'sire' | 'dam'>,
  within: Float64Array,
  groups: FounderGroups,
): SparseMatrix {
  const rows: number[] = [];
  const columns: number[] = [];
  const values: number[] = [];
  const level = (parent: number, group: number): number =>
    parent >= 0 ? parent : group >= 0 ? size + group : -1;
  for (let i = 0; i < size; i++) {
    const at = [i, level(sire[i]!, groups.sire[i]!), level(dam[i]!, groups.dam[i]!)];
    const weight = [1, -0.5, -0.5];
    for (let a = 0; a < 3; a++) {
      for (let b = 0; b < 3; b++) {
        if (at[a]! < 0 || at[b]! < 0) continue;
        rows.push(at[a]!);
        columns.push(at[b]!);
        values.push((weight[a]! * weight[b]!) / within[i]!);
      }
    }
  }
  return {
    size: size + groups.names.length,
    rows: Int32Array.from(rows),
    columns: Int32Array.from(columns),
    values: Float64Array.from(values),
  };
}
