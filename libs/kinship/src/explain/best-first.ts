import type { PairLattice } from './pair-lattice.js';

/**
 * One way through a lattice: the fish from the sire up to the common ancestor and down to the dam; or up to one of two related
 * founders, and from the other down.
 */
export interface LatticePath {
  readonly fish: readonly number[];
  /** Place of the common ancestor in `fish`, or of the first of the two founders. */
  readonly top: number;
  /** The same place, or that of the second founder. */
  readonly damTop: number;
  /** Coancestry that the path ends with: of the ancestor with itself, or of the two founders. */
  readonly end: number;
}

/** A step up, linked to the steps below it. */
interface Step {
  readonly below: Step | undefined;
  readonly fish: number;
  readonly onSireLine: boolean;
}

/** A beginning of paths, waiting for its turn. */
interface Beginning {
  /** Contribution of the best path that begins so. */
  readonly worth: number;
  /** (1/2)^steps so far. */
  readonly gain: number;
  readonly order: number;
  readonly state: number;
  readonly sireHead: number;
  readonly damHead: number;
  readonly steps: Step | undefined;
}

/**
 * Value of the best way up from each state: half the better of its two steps, and at an end its coancestry.
 * 0 where no end is reached.
 */
export function bestFromEachState(lattice: PairLattice, ends: Float64Array): Float64Array {
  const best = new Float64Array(lattice.size);
  for (const state of lattice.upwards) {
    if (ends[state]! > 0) {
      best[state] = ends[state]!;
      continue;
    }
    const bySire = lattice.bySire[state]!;
    const byDam = lattice.byDam[state]!;
    best[state] = Math.max(bySire < 0 ? 0 : best[bySire]!, byDam < 0 ? 0 : best[byDam]!) / 2;
  }
  return best;
}

/**
 * Lists the paths of a lattice, largest contribution first, one at a time as they are asked for.
 *
 * Each beginning in the queue is valued by the best path it can become, which is known exactly, so that nothing is expanded
 * in vain: k paths of at most s steps cost O(k s log(k s)) time and O(k s) memory, however many paths there are.
 */
export function* pathsBestFirst(
  lattice: PairLattice,
  best: Float64Array,
  ends: Float64Array,
  sire: number,
  dam: number,
  parents: { readonly sire: Int32Array; readonly dam: Int32Array },
): Generator<LatticePath, void, undefined> {
  if (lattice.size === 0 || best[0] === 0) return;
  const queue = new BeginningQueue();
  let order = 0;
  const wait = (beginning: Omit<Beginning, 'order' | 'worth'>): void => {
    const worth = beginning.gain * best[beginning.state]!;
    if (worth > 0) queue.push({ ...beginning, worth, order: order++ });
  };
  wait({ gain: 1, state: 0, sireHead: sire, damHead: dam, steps: undefined });
  for (let next = queue.pop(); next !== undefined; next = queue.pop()) {
    let { state, gain, sireHead, damHead, steps } = next;
    while (ends[state] === 0) {
      const onSireLine = sireHead > damHead;
      const head = onSireLine ? sireHead : damHead;
      const bySire = lattice.bySire[state]!;
      const byDam = lattice.byDam[state]!;
      const sireWorth = bySire < 0 ? 0 : best[bySire]!;
      const damWorth = byDam < 0 ? 0 : best[byDam]!;
      const takeSire = sireWorth >= damWorth;
      const after = (parent: number, toState: number): Omit<Beginning, 'order' | 'worth'> => ({
        gain: gain / 2,
        state: toState,
        sireHead: onSireLine ? parent : sireHead,
        damHead: onSireLine ? damHead : parent,
        steps: { below: steps, fish: parent, onSireLine },
      });
      const bySireFish = parents.sire[head]!;
      const byDamFish = parents.dam[head]!;
      if ((takeSire ? damWorth : sireWorth) > 0) {
        wait(takeSire ? after(byDamFish, byDam) : after(bySireFish, bySire));
      }
      const taken = takeSire ? after(bySireFish, bySire) : after(byDamFish, byDam);
      ({ state, gain, sireHead, damHead, steps } = taken);
    }
    yield spellOut(sire, dam, steps, ends[state]!);
  }
}

function spellOut(sire: number, dam: number, steps: Step | undefined, end: number): LatticePath {
  const sireLine: number[] = [];
  const damLine: number[] = [];
  for (let step = steps; step !== undefined; step = step.below) {
    (step.onSireLine ? sireLine : damLine).push(step.fish);
  }
  sireLine.push(sire);
  damLine.push(dam);
  // Both lines now run from the top down; where they met, both hold the common ancestor.
  const met = sireLine[0] === damLine[0];
  const top = sireLine.length - 1;
  const fish = [...sireLine.reverse(), ...(met ? damLine.slice(1) : damLine)];
  return { fish, top, damTop: met ? top : top + 1, end };
}

/** Binary heap: greatest worth first, and of equals the one that came first. */
class BeginningQueue {
  readonly #heap: Beginning[] = [];

  push(item: Beginning): void {
    const heap = this.#heap;
    let place = heap.push(item) - 1;
    while (place > 0) {
      const above = (place - 1) >> 1;
      if (!precedes(item, heap[above]!)) break;
      heap[place] = heap[above]!;
      place = above;
    }
    heap[place] = item;
  }

  pop(): Beginning | undefined {
    const heap = this.#heap;
    const top = heap[0];
    const last = heap.pop();
    if (top === undefined || last === undefined || heap.length === 0) return top;
    let place = 0;
    for (;;) {
      let below = 2 * place + 1;
      if (below >= heap.length) break;
      if (below + 1 < heap.length && precedes(heap[below + 1]!, heap[below]!)) below++;
      if (!precedes(heap[below]!, last)) break;
      heap[place] = heap[below]!;
      place = below;
    }
    heap[place] = last;
    return top;
  }
}

function precedes(a: Beginning, b: Beginning): boolean {
  return a.worth > b.worth || (a.worth === b.worth && a.order < b.order);
}
