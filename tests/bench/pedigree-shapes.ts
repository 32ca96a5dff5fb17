import { NO_PARENT, seededChance } from '@linewright/pedigree';

/** Parents of every fish, topological: fish of even index are males, of odd index females. */
export interface ParentArrays {
  readonly sire: Int32Array;
  readonly dam: Int32Array;
}

/** A line bred by `pairs` pairs a generation with spawns of `spawn`: 20 and 300 for a person's line of bettas. */
export function bigSpawns(size: number, seed: number, pairs = 20, spawn = 300): ParentArrays {
  return generations(size, seed, 2 * pairs, () => pairs * spawn, spawn);
}

/** Many pairs with spawns of 5, over 30 generations: every fish may become a parent. */
export function smallSpawns(size: number, seed: number, spawn = 5): ParentArrays {
  const each = Math.floor(size / 30);
  return generations(size, seed, each, () => each, spawn);
}

function generations(
  size: number,
  seed: number,
  founders: number,
  sizeOfNext: () => number,
  spawn: number,
): ParentArrays {
  const random = seededChance(seed);
  const sire = new Int32Array(size).fill(NO_PARENT);
  const dam = new Int32Array(size).fill(NO_PARENT);
  let from = 0;
  let to = founders;
  const pick = (sex: 0 | 1): number => {
    const first = (from + 1) & ~1;
    return first + sex + 2 * Math.floor(random() * ((to - first) >> 1));
  };
  while (to < size) {
    const end = Math.min(size, to + sizeOfNext());
    for (let i = to; i < end;) {
      const [father, mother] = [pick(0), pick(1)];
      for (let k = 0; k < spawn && i < end; k++, i++) {
        sire[i] = father;
        dam[i] = mother;
      }
    }
    from = to;
    to = end;
  }
  return { sire, dam };
}

/** The numbers 0 to size - 1 in a random order. */
export function shuffledOrder(size: number, seed: number): Int32Array {
  const random = seededChance(seed);
  const order = Int32Array.from({ length: size }, (_, i) => i);
  for (let i = size - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1));
    const swapped = order[i]!;
    order[i] = order[j]!;
    order[j] = swapped;
  }
  return order;
}
