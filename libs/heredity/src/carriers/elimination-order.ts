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

const STAMPS = 65_536;

/** Variables still to be summed out, with the ties that summing out makes among those left, cheapest first. */
class Remaining {
  readonly neighbours: readonly Set<number>[];
  readonly #gone: Uint8Array;
  readonly #stamp: Int32Array;
  readonly #heap = new ScoreHeap();

  constructor(
    private readonly graph: StateGraph,
    private readonly options: OrderOptions,
  ) {
    this.neighbours = graph.neighbours.map((set) => new Set(set));
    this.#gone = new Uint8Array(graph.states.length);
    this.#stamp = new Int32Array(graph.states.length);
    for (let v = 0; v < graph.states.length; v++) this.enter(v);
  }

  /** Size of the table that summing `v` out makes. */
  tableSize(v: number): number {
    let product = this.graph.states[v] ?? 1;
    for (const u of this.neighbours[v] ?? []) product *= this.graph.states[u] ?? 1;
    return product;
  }

  /** Puts `v` in again with the score it has now; what it was scored before counts no more. */
  enter(v: number): void {
    const mark = (this.#stamp[v] ?? 0) + 1;
    this.#stamp[v] = mark;
    this.#heap.push(v * STAMPS + (mark % STAMPS), this.#score(v));
  }

  /** The cheapest; undefined when all are gone. It stays until it is removed. */
  cheapest(): number | undefined {
    for (let next = this.#heap.pop(); next; next = this.#heap.pop()) {
      const v = Math.floor(next.item / STAMPS);
      if (!this.#gone[v] && (this.#stamp[v] ?? 0) % STAMPS === next.item % STAMPS) return v;
    }
    return undefined;
  }

  /** Takes `v` out, and with `join` ties those around it to one another; answers them. */
  remove(v: number, join: boolean): number[] {
    this.#gone[v] = 1;
    const around = [...(this.neighbours[v] ?? [])];
    for (const u of around) this.neighbours[u]?.delete(v);
    if (join) {
      for (const u of around) {
        for (const w of around) if (u !== w) this.neighbours[u]?.add(w);
      }
    }
    const again = new Set(around);
    if (join && this.options.rule === 'fewest-new-ties' && around.length <= 12) {
      // A tie made here may spare one to the neighbours of both ends.
      for (const u of around)
        for (const w of this.neighbours[u] ?? [])
          if ((this.neighbours[w]?.size ?? 0) <= 30) again.add(w);
    }
    for (const u of again) if (!this.#gone[u]) this.enter(u);
    return around;
  }

  #score(v: number): number {
    const { random, rule } = this.options;
    const jitter = () => (random ? random() * 0.9 : 0);
    if (rule === 'fewest-states') return Math.log2(this.tableSize(v)) + jitter();
    const around = [...(this.neighbours[v] ?? [])];
    // Beyond some size counting costs more than it tells.
    return around.length > 60
      ? around.length ** 2 / 2
      : newTies(around, this.neighbours) + jitter();
  }
}

/**
 * A good order for summing out variables, found greedily. Finding the best one is NP-hard (Arnborg et al. 1987).
 *
 * Returns null when a table would exceed `limit` and nothing may be held fixed.
 * Cost: about n times the square of the usual number of ties.
 */
export function eliminationOrder(graph: StateGraph, options: OrderOptions): Elimination | null {
  const left = new Remaining(graph, options);
  const order: number[] = [];
  const ties: number[][] = Array.from({ length: graph.states.length }, () => []);
  const fixed: number[] = [];
  let largest = 0;
  let total = 0;
  for (let v = left.cheapest(); v !== undefined; v = left.cheapest()) {
    const size = left.tableSize(v);
    if (size > options.limit) {
      if (!options.hold) return null;
      const held = busiest(v, left.neighbours, options);
      fixed.push(held);
      left.remove(held, false);
      if (held !== v) left.enter(v);
      continue;
    }
    largest = Math.max(largest, size);
    total += size;
    order.push(v);
    ties[v] = left.remove(v, true);
  }
  return { order, ties, largest, total, fixed };
}

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
