import { radixOrder } from './radix-order.js';

/** Pairs held beside the wanted ones, at least, before they are sorted and cut; as many as are wanted where those are more. */
const LEAST_SPARE = 50_000;

/**
 * Keeps the first `most` of the pairs offered to it: by group, then by figure (least first, `NaN` last), then by F, then by
 * number. What is offered may be far more than what is kept.
 *
 * Cost: a comparison for a pair that cannot come in; a sort each time the spare places are full.
 */
export class FirstOfOrder {
  readonly #most: number;
  readonly #room: number;
  #pairs = new Float64Array(1024);
  #groups = new Uint8Array(1024);
  #figures = new Float64Array(1024);
  #inbreeding = new Float64Array(1024);
  #length = 0;
  /** A pair behind this one is not needed any more. */
  #last: { group: number; figure: number } | null = null;
  /** Pairs offered so far. */
  offered = 0;

  constructor(most: number) {
    this.#most = most;
    this.#room = most + Math.max(LEAST_SPARE, most);
  }

  add(pair: number, group: number, figure: number, inbreeding: number): void {
    this.offered++;
    const last = this.#last;
    if (last && (group > last.group || (group === last.group && behind(figure, last.figure))))
      return;
    if (this.#length === this.#pairs.length) this.#grow();
    const at = this.#length++;
    this.#pairs[at] = pair;
    this.#groups[at] = group;
    this.#figures[at] = figure;
    this.#inbreeding[at] = inbreeding;
    if (this.#length >= this.#room) this.#cut();
  }

  /** Numbers of the pairs kept, in order. */
  sorted(): Float64Array {
    this.#cut();
    return this.#pairs.slice(0, this.#length);
  }

  #cut(): void {
    const keys = [this.#pairs, this.#inbreeding, this.#figures, Float64Array.from(this.#groups)];
    const order = radixOrder(keys, this.#length);
    const kept = order.subarray(0, Math.min(this.#length, this.#most));
    const pick = <List extends Float64Array | Uint8Array>(list: List): List => {
      const copy = list.slice() as List;
      kept.forEach((from, to) => {
        copy[to] = list[from] ?? 0;
      });
      return copy;
    };
    this.#pairs = pick(this.#pairs);
    this.#groups = pick(this.#groups);
    this.#figures = pick(this.#figures);
    this.#inbreeding = pick(this.#inbreeding);
    this.#length = kept.length;
    const end = this.#length - 1;
    if (this.#length === this.#most && end >= 0)
      this.#last = { group: this.#groups[end] ?? 0, figure: this.#figures[end] ?? 0 };
  }

  #grow(): void {
    const larger = <List extends Float64Array | Uint8Array>(list: List, empty: List): List => {
      empty.set(list);
      return empty;
    };
    const size = this.#pairs.length * 2;
    this.#pairs = larger(this.#pairs, new Float64Array(size));
    this.#groups = larger(this.#groups, new Uint8Array(size));
    this.#figures = larger(this.#figures, new Float64Array(size));
    this.#inbreeding = larger(this.#inbreeding, new Float64Array(size));
  }
}

/** Whether the first figure comes after the second; `NaN` comes after all. */
function behind(a: number, b: number): boolean {
  if (Number.isNaN(a)) return !Number.isNaN(b);
  return a > b;
}
