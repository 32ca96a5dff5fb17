import { subset, withAncestors, type Pedigree } from '@linewright/pedigree';
import { knownInbreeding } from '../inbreeding.js';

/** Below this, 1 - F has lost more than half of its sixteen digits. */
const LEAST_BY_DIFFERENCE = 1e-8;

/** Fish of an ancestry for which a table of all pairs is made: 128 MB. */
const LARGEST_ANCESTRY = 4096;

/**
 * 1 - F of each given fish, to full precision also where F is so near to 1 that the difference has no digits left: after some
 * hundred generations of sibs 1 - F is 10^-20, while F as a number ends at 1 - 10^-16.
 *
 * Where that is so, the chance h that genes are not alike is handed down by itself, which only adds positive numbers:
 * h(a, b) = (h(a, sire of b) + h(a, dam of b)) / 2, h(a, a) = h(sire, dam) / 2, and 1 with an unknown parent. (The tabular
 * method, Emik LO & Terrill CE (1949) J Hered 40:51-55, written for 1 - coancestry.)
 *
 * @returns one value for each of `fish`; `NaN` where it cannot be told, with more than 4,096 ancestors.
 * Cost: nothing where no F is that near to 1; else the square of the ancestors of those fish.
 */
export function shareNotAlike(pedigree: Pedigree, fish: ArrayLike<number>): Float64Array {
  const inbreeding = knownInbreeding(pedigree, undefined);
  const share = Float64Array.from(fish, (i) => 1 - inbreeding[i]!);
  const near = new Set(Array.from(fish).filter((_, k) => share[k]! < LEAST_BY_DIFFERENCE));
  if (near.size === 0) return share;
  const ancestry = withAncestors(pedigree, [...near]);
  const part = ancestry.length > LARGEST_ANCESTRY ? undefined : subset(pedigree, ancestry);
  const exact = part === undefined ? undefined : byTable(part);
  const place = new Map(Array.from(ancestry, (index, k) => [index, k]));
  for (let k = 0; k < fish.length; k++) {
    if (near.has(fish[k]!)) share[k] = exact?.[place.get(fish[k]!)!] ?? NaN;
  }
  return share;
}

function byTable({ size, sire, dam }: Pedigree): Float64Array {
  const h = new Float64Array(size * size);
  const own = new Float64Array(size);
  for (let b = 0; b < size; b++) {
    const s = sire[b]!;
    const d = dam[b]!;
    for (let a = 0; a < b; a++) {
      const value = ((s < 0 ? 1 : h[a * size + s]!) + (d < 0 ? 1 : h[a * size + d]!)) / 2;
      h[a * size + b] = value;
      h[b * size + a] = value;
    }
    own[b] = s < 0 || d < 0 ? 1 : h[s * size + d]!;
    h[b * size + b] = own[b]! / 2;
  }
  return own;
}
