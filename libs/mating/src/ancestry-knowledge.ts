import { isRecorded, NO_PARENT, unknownOrigin, type Pedigree } from '@linewright/pedigree';

/** What is known of the origin of each fish of a pedigree. */
export interface AncestryKnowledge {
  /**
   * The known share of its 2 parents, 4 grandparents and so on, averaged over the generations looked at. 0: no parent known. 1:
   * every ancestor of those generations known.
   */
  readonly known: Float64Array;
  /** 1 where something behind a fish, however far back, is of unknown origin: an F that counts on it is the least that it can be. */
  readonly open: Uint8Array;
}

/**
 * How well each fish's ancestry is known (after MacCluer et al. 1983, from memory; the two sides are not combined here).
 *
 * K_0 = 1 for a fish on record; K_g = (K_{g-1}(sire) + K_{g-1}(dam)) / 2; the figure is the mean of K_1 to K_generations. An unknown
 * or hidden parent counts 0, or 1 where it is known to be unrelated to all others: nothing is missing of F then.
 *
 * @param unrelated ids of fish whose unknown parents are known to be unrelated to all others; those not in the pedigree are passed over.
 * Cost: generations x size. Figures in index order.
 */
export function ancestryKnowledge(
  p: Pedigree,
  generations: number,
  unrelated: readonly string[] = [],
): AncestryKnowledge {
  const declared = new Uint8Array(p.size);
  for (const id of unrelated) if (p.has(id)) declared[p.indexOf(id)] = 1;
  const open = unknownOrigin(p, declared);
  const of = (share: Float64Array, child: number, parent: number): number => {
    if (isRecorded(p, parent)) return share[parent] ?? 0;
    const known = parent === NO_PARENT ? declared[child] === 1 : open[parent] !== 1;
    return known ? 1 : 0;
  };
  let share = new Float64Array(p.size).fill(1);
  const sum = new Float64Array(p.size);
  for (let generation = 1; generation <= generations; generation++) {
    const next = new Float64Array(p.size);
    for (let i = 0; i < p.size; i++) {
      const known = of(share, i, p.sire[i] ?? NO_PARENT) + of(share, i, p.dam[i] ?? NO_PARENT);
      next[i] = known / 2;
      sum[i] = (sum[i] ?? 0) + known / 2;
    }
    share = next;
  }
  return { known: sum.map((total) => total / generations), open };
}
