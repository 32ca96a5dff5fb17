import type { Pedigree } from '@linewright/pedigree';
import { checkIndices } from './checks.js';
import type { CoancestryOptions } from './coancestry.js';
import { multiplyRelationship } from './relationship-product.js';

/**
 * Mean coancestry of each of some groups of fish with each: every fish of the one with every fish of the other, and within a group of every
 * fish with every fish, itself included. Between two groups it is the mean F of young whose one parent is drawn from either.
 *
 * Source: Malécot G (1948) Les mathématiques de l'hérédité, Masson (coancestry of two is the F of their young; from memory); the product after
 * Colleau JJ (2002) Genet Sel Evol 34:409-421.
 * @returns groups x groups, row-major and symmetric; `NaN` where a group is empty.
 * @throws {KinshipError} `KINSHIP_BAD_INDEX`.
 * Cost: two passes over the pedigree for all groups together, once all F are known.
 * @example
 * coancestryAmongGroups(pedigree, [[brother], [sister]])[1]; // 0.25
 */
export function coancestryAmongGroups(
  pedigree: Pedigree,
  groups: readonly ArrayLike<number>[],
  options: CoancestryOptions = {},
): Float64Array {
  const count = groups.length;
  const weights = new Float64Array(pedigree.size * count);
  groups.forEach((group, k) => {
    checkIndices(pedigree, group);
    for (let m = 0; m < group.length; m++) weights[group[m]! * count + k]! += 1 / group.length;
  });
  const means = new Float64Array(count * count).fill(Number.NaN);
  if (count === 0) return means;
  const product = multiplyRelationship(pedigree, weights, { ...options, vectors: count });
  groups.forEach((group, row) => {
    for (let column = 0; column < count; column++) {
      if (group.length === 0 || groups[column]!.length === 0) continue;
      let sum = 0;
      for (let m = 0; m < group.length; m++) sum += product[group[m]! * count + column]!;
      means[row * count + column] = sum / (2 * group.length);
    }
  });
  return means;
}
