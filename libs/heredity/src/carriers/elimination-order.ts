/** Variables with their numbers of states, and which of them stand in a table together. */
export interface StateGraph {
  readonly states: readonly number[];
  readonly neighbours: readonly ReadonlySet<number>[];
}

/** An order in which to sum variables out, each with the variables it is then tied to. */
export interface Elimination {
  readonly order: readonly number[];
  /** By variable: the variables left when it is summed out. */
  readonly ties: readonly (readonly number[])[];
  /** Entries of the largest table. */
  readonly largest: number;
  /** Entries of all tables. */
  readonly total: number;
  /** Variables to be held fixed because the tables would be too large; empty unless asked for. */
  readonly fixed: readonly number[];
}

export interface OrderOptions {
  readonly rule: 'fewest-states' | 'fewest-new-ties';
  /** Tables beyond this many entries end the search, or make a variable be held fixed when `hold` is true. */
  readonly limit: number;
  readonly hold?: boolean;
  /** Breaks ties, and chooses what to hold; none for a fixed choice. */
  readonly random?: () => number;
  /** Variables to be held only when nothing else can be: 1 for such. */
  readonly spare?: Uint8Array;
}

/** A heap of variables with scores; old entries are skipped when they surface. */
class ScoreHeap {
  readonly #scores: number[] = [];
  readonly #items: number[] = [];

  get size(): number {
    return this.#items.length;
  }

  push(item: number, score: number): void {
    let at = this.#items.length;
    this.#items.push(item);
    this.#scores.push(score);
    while (at > 0) {
      const up = (at - 1) >> 1;
      if ((this.#scores[up] ?? 0) <= score) break;
      this.#swap(at, up);
      at = up;
    }
  }

  pop(): { item: number; score: number } | undefined {
    const item = this.#items[0];
    const score = this.#scores[0];
    if (item === undefined || score === undefined) return undefined;
    const lastItem = this.#items.pop() ?? 0;
    const lastScore = this.#scores.pop() ?? 0;
    if (this.#items.length > 0) {
      this.#items[0] = lastItem;
      this.#scores[0] = lastScore;
      this.#sink();
    }
    return { item, score };
  }

  #sink(): void {
    for (let at = 0; ;) {
      let least = at;
      for (const down of [2 * at + 1, 2 * at + 2]) {
        if (down < this.#items.length && (this.#scores[down] ?? 0) < (this.#scores[least] ?? 0)) {
          least = down;
        }
      }
      if (least === at) return;
      this.#swap(at, least);
      at = least;
    }
  }

  #swap(a: number, b: number): void {
    [this.#items[a], this.#items[b]] = [this.#items[b] ?? 0, this.#items[a] ?? 0];
    [this.#scores[a], this.#scores[b]] = [this.#scores[b] ?? 0, this.#scores[a] ?? 0];
  }
}

function newTies(around: readonly number[], neighbours: readonly Set<number>[]): number {
  let missing = 0;
  for (let i = 0; i < around.length; i++) {
    const of = neighbours[around[i] ?? 0];
    for (let j = i + 1; j < around.length; j++) {
      if (!of?.has(around[j] ?? 0)) missing++;
    }
  }
  return missing;
}

/**
 * A good order for summing out variables, found greedily. Finding the best one is NP-hard (Arnborg et al. 1987).
 *
 * Returns null when a table would exceed `limit` and nothing may be held fixed.
 * Cost: about n times the square of the usual number of ties.
 */
export function eliminationOrder(graph: StateGraph, options: OrderOptions): Elimination | null {
  const n = graph.states.length;
  const neighbours = graph.neighbours.map((set) => new Set(set));
  const gone = new Uint8Array(n);
  const stamp = new Int32Array(n);
  const heap = new ScoreHeap();
  const states = (v: number) => graph.states[v] ?? 1;
  const entries = (v: number) => {
    let product = states(v);
    for (const u of neighbours[v] ?? []) product *= states(u);
    return product;
  };
  const jitter = () => (options.random ? options.random() * 0.9 : 0);
  const score = (v: number) => {
    const around = [...(neighbours[v] ?? [])];
    if (options.rule === 'fewest-states') return Math.log2(entries(v)) + jitter();
    // Beyond some size counting costs more than it tells.
    return around.length > 60 ? around.length ** 2 / 2 : newTies(around, neighbours) + jitter();
  };
  const enter = (v: number) => {
    const mark = (stamp[v] ?? 0) + 1;
    stamp[v] = mark;
    heap.push(v * STAMPS + (mark % STAMPS), score(v));
  };
  for (let v = 0; v < n; v++) enter(v);

  const order: number[] = [];
  const ties: number[][] = Array.from({ length: n }, () => []);
  const fixed: number[] = [];
  let largest = 0;
  let total = 0;
  const remove = (v: number, join: boolean) => {
    gone[v] = 1;
    const around = [...(neighbours[v] ?? [])];
    for (const u of around) neighbours[u]?.delete(v);
    if (join) {
      for (const u of around) {
        for (const w of around) if (u !== w) neighbours[u]?.add(w);
      }
    }
    const again = new Set(around);
    if (join && options.rule === 'fewest-new-ties' && around.length <= 12) {
      // A tie made here may spare one to the neighbours of both ends.
      for (const u of around)
        for (const w of neighbours[u] ?? []) if ((neighbours[w]?.size ?? 0) <= 30) again.add(w);
    }
    for (const u of again) if (!gone[u]) enter(u);
    return around;
  };
  for (let next = heap.pop(); next; next = heap.pop()) {
    const v = Math.floor(next.item / STAMPS);
    if (gone[v] || (stamp[v] ?? 0) % STAMPS !== next.item % STAMPS) continue;
    const size = entries(v);
    if (size > options.limit) {
      if (!options.hold) return null;
      const held = busiest(v, neighbours, options);
      fixed.push(held);
      remove(held, false);
      if (held !== v) enter(v);
      continue;
    }
    largest = Math.max(largest, size);
    total += size;
    order.push(v);
    ties[v] = remove(v, true);
  }
  return { order, ties, largest, total, fixed };
}

const STAMPS = 65_536;

/** The variable around `v` with the most ties, by a little luck when a random source is given. */
function busiest(
  v: number,
  neighbours: readonly Set<number>[],
  { random, spare }: OrderOptions,
): number {
  let best = v;
  let most = -1;
  for (const u of [v, ...(neighbours[v] ?? [])]) {
    const weight =
      (neighbours[u]?.size ?? 0) * (random ? 0.5 + random() : 1) * (spare?.[u] ? 1e-6 : 1);
    if (weight > most) {
      most = weight;
      best = u;
    }
  }
  return best;
}
