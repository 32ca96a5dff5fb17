import { isRecorded, NO_PARENT, type Pedigree } from '@linewright/pedigree';

/**
 * How well each fish's ancestry is recorded: the known share of its 2 parents, 4 grandparents and so on, averaged over
 * `generations` generations (after MacCluer et al. 1983, from memory; the two sides are not combined here).
 *
 * K_0 = 1 for a fish on record; K_g = (K_{g-1}(sire) + K_{g-1}(dam)) / 2 with 0 for an unknown or hidden parent; the figure is the
 * mean of K_1 to K_generations. 0: no parent known. 1: every ancestor of those generations known.
 *
 * Cost: generations x size. Returns one figure a fish, in index order.
 */
export function knownAncestry(p: Pedigree, generations: number): Float64Array {
  let share = new Float64Array(p.size).fill(1);
  const sum = new Float64Array(p.size);
  for (let generation = 1; generation <= generations; generation++) {
    const next = new Float64Array(p.size);
    for (let i = 0; i < p.size; i++) {
      const sire = p.sire[i] ?? NO_PARENT;
      const dam = p.dam[i] ?? NO_PARENT;
      const known =
        (isRecorded(p, sire) ? (share[sire] ?? 0) : 0) +
        (isRecorded(p, dam) ? (share[dam] ?? 0) : 0);
      next[i] = known / 2;
      sum[i] = (sum[i] ?? 0) + known / 2;
    }
    share = next;
  }
  return sum.map((total) => total / generations);
}
