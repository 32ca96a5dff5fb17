import { LayoutError } from './layout-error.js';
import { duplicateId, sameParents, type SliceFish } from './slice.js';

/** The slice by index, parents before offspring, ties in tag order. -1 is a parent unknown or not shown. */
export interface Kindred {
  readonly fish: readonly SliceFish[];
  readonly indexOf: ReadonlyMap<string, number>;
  readonly sire: Int32Array;
  readonly dam: Int32Array;
  readonly offspring: readonly (readonly number[])[];
}

const collator = new Intl.Collator('en', { numeric: true });

/** Tag order, numbers as numbers; ids settle ties so that the order is total. */
function byTag(a: SliceFish, b: SliceFish): number {
  const tags = collator.compare(a.tag, b.tag);
  if (tags !== 0) return tags;
  return a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
}

/**
 * Checks and indexes a slice. O(n log n).
 *
 * @throws LayoutError `LAYOUT_DUPLICATE_ID`, `LAYOUT_SAME_PARENTS`, `LAYOUT_CYCLE` (the cycle spelled out).
 */
export function indexKindred(slice: readonly SliceFish[]): Kindred {
  const sorted = [...slice].sort(byTag);
  const position = new Map<string, number>();
  sorted.forEach((fish, i) => {
    if (position.has(fish.id)) throw duplicateId(fish.id);
    if (fish.sireId !== null && fish.sireId === fish.damId) throw sameParents(fish.id, fish.sireId);
    position.set(fish.id, i);
  });
  const order = topologicalOrder(sorted, position);
  const fish = order.map((i) => sorted[i]!);
  const indexOf = new Map(fish.map((one, i) => [one.id, i] as const));
  const sire = Int32Array.from(fish, (one) => lookUp(indexOf, one.sireId));
  const dam = Int32Array.from(fish, (one) => lookUp(indexOf, one.damId));
  const offspring: number[][] = fish.map(() => []);
  for (let i = 0; i < fish.length; i++) {
    if (sire[i]! >= 0) offspring[sire[i]!]!.push(i);
    if (dam[i]! >= 0) offspring[dam[i]!]!.push(i);
  }
  return { fish, indexOf, sire, dam, offspring };
}

function lookUp(map: ReadonlyMap<string, number>, id: string | null): number {
  return id === null ? -1 : (map.get(id) ?? -1);
}

function topologicalOrder(
  fish: readonly SliceFish[],
  position: ReadonlyMap<string, number>,
): number[] {
  const waiting = new Int32Array(fish.length);
  const young: number[][] = fish.map(() => []);
  fish.forEach((one, i) => {
    for (const parent of [lookUp(position, one.sireId), lookUp(position, one.damId)]) {
      if (parent < 0) continue;
      young[parent]!.push(i);
      waiting[i]!++;
    }
  });
  const order: number[] = [];
  for (let i = 0; i < fish.length; i++) if (waiting[i] === 0) order.push(i);
  for (let head = 0; head < order.length; head++) {
    for (const child of young[order[head]!]!) if (--waiting[child]! === 0) order.push(child);
  }
  if (order.length < fish.length) throw cycleError(fish, position, waiting);
  return order;
}

/** Every fish still waiting has a waiting parent, so climbing from any of them must come round. */
function cycleError(
  fish: readonly SliceFish[],
  position: ReadonlyMap<string, number>,
  waiting: Int32Array,
): LayoutError {
  const seen = new Map<number, number>();
  const climb: number[] = [];
  let at = waiting.findIndex((count) => count > 0);
  while (!seen.has(at)) {
    seen.set(at, climb.length);
    climb.push(at);
    const one = fish[at]!;
    const sire = lookUp(position, one.sireId);
    at = sire >= 0 && waiting[sire]! > 0 ? sire : lookUp(position, one.damId);
  }
  const ids = [...climb.slice(seen.get(at)!), at].map((i) => fish[i]!.id);
  const message = `A fish is its own ancestor: ${ids.join(' <- ')}; correct a parent in this chain.`;
  return new LayoutError('LAYOUT_CYCLE', message, ids);
}

/** Indices reached from `start` by going up (parents) or down (offspring), at most `limit` steps; without `start`. */
export function reach(
  kindred: Kindred,
  start: number,
  direction: 'up' | 'down',
  limit = Number.POSITIVE_INFINITY,
): Set<number> {
  const found = new Set<number>();
  let front = [start];
  for (let step = 0; step < limit && front.length > 0; step++) {
    const next: number[] = [];
    for (const i of front) {
      const around =
        direction === 'up' ? [kindred.sire[i]!, kindred.dam[i]!] : kindred.offspring[i]!;
      for (const j of around) {
        if (j < 0 || found.has(j)) continue;
        found.add(j);
        next.push(j);
      }
    }
    front = next;
  }
  return found;
}

/** Do two fish share an ancestor in the slice, or is one the other's ancestor? */
export function shareAncestor(kindred: Kindred, a: number, b: number): boolean {
  const line = reach(kindred, a, 'up').add(a);
  const stack = [b];
  const seen = new Set(stack);
  while (stack.length > 0) {
    const i = stack.pop()!;
    if (line.has(i)) return true;
    for (const parent of [kindred.sire[i]!, kindred.dam[i]!]) {
      if (parent < 0 || seen.has(parent)) continue;
      seen.add(parent);
      stack.push(parent);
    }
  }
  return false;
}
