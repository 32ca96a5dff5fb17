import { checkIndex, checkWhole } from './checks.js';
import { NO_PARENT, type Pedigree } from './pedigree.js';

/**
 * Ancestors of an individual, without itself, in ascending index.
 *
 * @param maxGenerations 1 for parents only, 2 for grandparents too; all by default. An ancestor counts by its nearest line.
 * Cost: linear in the ancestors found (plus their sort).
 * @throws {PedigreeError} `PEDIGREE_BAD_INDEX`, `PEDIGREE_BAD_ARGUMENT`.
 */
export function ancestors(
  pedigree: Pedigree,
  individual: number,
  maxGenerations = Infinity,
): Int32Array {
  return Int32Array.from(stepsUp(pedigree, individual, maxGenerations).keys())
    .filter((index) => index !== individual)
    .sort();
}

/**
 * Descendants of an individual, without itself, in ascending index.
 *
 * @param maxGenerations 1 for its young only; all by default. A descendant counts by its nearest line.
 * Cost: one pass over the individuals below it in the order.
 * @throws {PedigreeError} `PEDIGREE_BAD_INDEX`, `PEDIGREE_BAD_ARGUMENT`.
 */
export function descendants(
  pedigree: Pedigree,
  individual: number,
  maxGenerations = Infinity,
): Int32Array {
  checkIndex(pedigree, individual);
  checkWhole('maxGenerations', maxGenerations, true);
  const { size, sire, dam } = pedigree;
  // Steps below the individual plus one, so that zero can mean "not below".
  const below = new Int32Array(size - individual);
  below[0] = 1;
  const found: number[] = [];
  for (let i = individual + 1; i < size; i++) {
    const s = sire[i]! - individual;
    const d = dam[i]! - individual;
    const bySire = s < 0 ? 0 : below[s]!;
    const byDam = d < 0 ? 0 : below[d]!;
    if (bySire === 0 && byDam === 0) continue;
    const nearest = bySire === 0 ? byDam : byDam === 0 ? bySire : Math.min(bySire, byDam);
    if (nearest > maxGenerations) continue;
    below[i - individual] = nearest + 1;
    found.push(i);
  }
  return Int32Array.from(found);
}

/**
 * Degree of relationship of every relative of an individual, up to `maxDegree`: 1 for parents, young and full sibs;
 * 2 for grandparents, grandyoung, half sibs and the full sibs of parents; 3 for first cousins; and so on.
 *
 * The degree is the number of steps up to the nearest common ancestor and down again; where the two lines part at a pair of
 * shared parents it is one less, as full sibs share twice what half sibs do. Of several lines the nearest counts, so double
 * relationships are not added up: coancestry does that.
 *
 * @returns `degree[i]` for each individual, 0 for itself, -1 for those further away or unrelated.
 * Cost: one pass over the pedigree.
 * @throws {PedigreeError} `PEDIGREE_BAD_INDEX`, `PEDIGREE_BAD_ARGUMENT`.
 */
export function degreesOfRelationship(
  pedigree: Pedigree,
  individual: number,
  maxDegree = Infinity,
): Int32Array {
  checkIndex(pedigree, individual);
  checkWhole('maxDegree', maxDegree, true);
  const { size, sire, dam } = pedigree;
  const degree = new Int32Array(size).fill(-1);
  const sibsOf = new Map<number, number>();
  for (const [index, steps] of stepsUp(pedigree, individual, maxDegree)) {
    degree[index] = steps;
    const s = sire[index]!;
    const d = dam[index]!;
    if (s === NO_PARENT || d === NO_PARENT) continue;
    const pair = s * size + d;
    sibsOf.set(pair, Math.min(sibsOf.get(pair) ?? Infinity, steps + 1));
  }
  for (let i = 0; i < size; i++) {
    const s = sire[i]!;
    const d = dam[i]!;
    let nearest = degree[i]! < 0 ? Infinity : degree[i]!;
    if (s !== NO_PARENT && degree[s]! >= 0) nearest = Math.min(nearest, degree[s]! + 1);
    if (d !== NO_PARENT && degree[d]! >= 0) nearest = Math.min(nearest, degree[d]! + 1);
    if (s !== NO_PARENT && d !== NO_PARENT && nearest > 1) {
      nearest = Math.min(nearest, sibsOf.get(s * size + d) ?? Infinity);
    }
    degree[i] = nearest < Infinity && nearest <= maxDegree ? nearest : -1;
  }
  return degree;
}

/**
 * Relatives of exactly one degree (see {@link degreesOfRelationship}), in ascending index.
 */
export function relativesOfDegree(
  pedigree: Pedigree,
  individual: number,
  degree: number,
): Int32Array {
  checkWhole('degree', degree);
  const degrees = degreesOfRelationship(pedigree, individual, degree);
  const found: number[] = [];
  for (let i = 0; i < degrees.length; i++) if (degrees[i] === degree) found.push(i);
  return Int32Array.from(found);
}

/** Steps from the individual to itself (0) and each ancestor by the nearest line, level by level. */
function stepsUp(
  pedigree: Pedigree,
  individual: number,
  maxGenerations: number,
): Map<number, number> {
  checkIndex(pedigree, individual);
  checkWhole('maxGenerations', maxGenerations, true);
  const { sire, dam } = pedigree;
  const steps = new Map<number, number>([[individual, 0]]);
  let level = [individual];
  for (let generation = 1; generation <= maxGenerations && level.length > 0; generation++) {
    const above: number[] = [];
    for (const young of level) {
      for (const parent of [sire[young]!, dam[young]!]) {
        if (parent === NO_PARENT || steps.has(parent)) continue;
        steps.set(parent, generation);
        above.push(parent);
      }
    }
    level = above;
  }
  return steps;
}
