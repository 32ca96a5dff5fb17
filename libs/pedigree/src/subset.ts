import { pedigreeFromArrays } from './build-pedigree.js';
import { checkIndex } from './checks.js';
import { NO_PARENT, type Pedigree } from './pedigree.js';

/**
 * The pedigree of the given individuals only, in the order of the original; a parent left out becomes unknown.
 * Indices may come in any order and more than once. To keep relationships whole, add the ancestors first:
 * `subset(pedigree, withAncestors(pedigree, indices))`.
 *
 * @throws {PedigreeError} `PEDIGREE_BAD_INDEX`.
 * Cost: one pass over the pedigree.
 */
export function subset(pedigree: Pedigree, indices: ArrayLike<number>): Pedigree {
  const kept = marked(pedigree, indices);
  const place = new Int32Array(pedigree.size).fill(NO_PARENT);
  let count = 0;
  for (let i = 0; i < pedigree.size; i++) if (kept[i] === 1) place[i] = count++;
  const sire = new Int32Array(count);
  const dam = new Int32Array(count);
  const ids = new Array<string>(count);
  const hidden = pedigree.hidden === undefined ? undefined : new Uint8Array(count);
  for (let i = 0; i < pedigree.size; i++) {
    const index = place[i]!;
    if (index === NO_PARENT) continue;
    const s = pedigree.sire[i]!;
    const d = pedigree.dam[i]!;
    sire[index] = s === NO_PARENT ? NO_PARENT : place[s]!;
    dam[index] = d === NO_PARENT ? NO_PARENT : place[d]!;
    ids[index] = pedigree.ids[i]!;
    if (hidden !== undefined) hidden[index] = pedigree.hidden![i]!;
  }
  return pedigreeFromArrays(sire, dam, ids, hidden);
}

/**
 * The given individuals and all their ancestors, in ascending index.
 *
 * @throws {PedigreeError} `PEDIGREE_BAD_INDEX`.
 * Cost: one pass over the pedigree.
 */
export function withAncestors(pedigree: Pedigree, indices: ArrayLike<number>): Int32Array {
  const wanted = marked(pedigree, indices);
  let count = 0;
  for (let i = pedigree.size - 1; i >= 0; i--) {
    if (wanted[i] === 0) continue;
    count++;
    const s = pedigree.sire[i]!;
    const d = pedigree.dam[i]!;
    if (s !== NO_PARENT) wanted[s] = 1;
    if (d !== NO_PARENT) wanted[d] = 1;
  }
  const found = new Int32Array(count);
  for (let i = pedigree.size - 1; i >= 0; i--) if (wanted[i] === 1) found[--count] = i;
  return found;
}

function marked(pedigree: Pedigree, indices: ArrayLike<number>): Uint8Array {
  const marks = new Uint8Array(pedigree.size);
  for (let k = 0; k < indices.length; k++) {
    checkIndex(pedigree, indices[k]!);
    marks[indices[k]!] = 1;
  }
  return marks;
}
