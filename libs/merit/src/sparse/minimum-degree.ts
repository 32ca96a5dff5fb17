/** A graph without loops as lists of neighbours: those of i are `neighbour[start[i]]` to `neighbour[start[i + 1] - 1]`. */
export interface Graph {
  readonly size: number;
  readonly start: Int32Array;
  readonly neighbour: Int32Array;
}

/**
 * An order of elimination with little fill: approximate minimum degree on the quotient graph, where a node that is gone stands as
 * one element for the clique it left behind. Nodes with very many neighbours (fixed effects) are put last without a look.
 *
 * Source: Amestoy PR, Davis TA & Duff IS (1996) SIAM J Matrix Anal Appl 17:886-905 (the bound on the degree, absorption of
 * elements).
 *
 * @param fillLimit stops and returns null when the factor would hold more entries than this.
 * @returns the nodes in the order in which they are to be eliminated.
 * Cost: about the entries of the factor times the few elements that a node touches.
 */
export function minimumDegreeOrder(graph: Graph, fillLimit = Infinity): Int32Array | null {
  return new Elimination(graph).run(fillLimit);
}

class Elimination {
  readonly #size: number;
  readonly #variables: number[][];
  readonly #elements: number[][];
  /** Nodes of the clique that an eliminated node left, null when not eliminated or absorbed by another. */
  readonly #clique: (number[] | null)[];
  readonly #degree: Int32Array;
  readonly #gone: Uint8Array;
  readonly #mark: Int32Array;
  readonly #outside: Int32Array;
  readonly #outsideMark: Int32Array;
  #head: Int32Array;
  readonly #next: Int32Array;
  readonly #previous: Int32Array;
  readonly #dense: number[] = [];
  #stamp = 0;

  constructor({ size, start, neighbour }: Graph) {
    this.#size = size;
    this.#gone = new Uint8Array(size);
    const bound = Math.max(40, 10 * Math.sqrt(size));
    for (let i = 0; i < size; i++) {
      if (start[i + 1]! - start[i]! <= bound) continue;
      this.#gone[i] = 1;
      this.#dense.push(i);
    }
    this.#dense.sort((a, b) => start[a + 1]! - start[a]! - (start[b + 1]! - start[b]!) || a - b);
    this.#variables = Array.from({ length: size }, (_, i) => {
      const list: number[] = [];
      if (this.#gone[i] === 1) return list;
      for (let k = start[i]!; k < start[i + 1]!; k++)
        if (this.#gone[neighbour[k]!] === 0) list.push(neighbour[k]!);
      return list;
    });
    this.#elements = Array.from({ length: size }, () => []);
    this.#clique = new Array<number[] | null>(size).fill(null);
    this.#degree = Int32Array.from(this.#variables, (list) => list.length);
    this.#mark = new Int32Array(size);
    this.#outside = new Int32Array(size);
    this.#outsideMark = new Int32Array(size);
    this.#head = new Int32Array(size + 1).fill(-1);
    this.#next = new Int32Array(size).fill(-1);
    this.#previous = new Int32Array(size).fill(-1);
    for (let i = size - 1; i >= 0; i--) if (this.#gone[i] === 0) this.#enter(i);
  }

  run(fillLimit: number): Int32Array | null {
    const order = new Int32Array(this.#size);
    const sparse = this.#size - this.#dense.length;
    let fill = 0;
    let least = 0;
    for (let step = 0; step < sparse; step++) {
      while (this.#head[least]! < 0) least++;
      const pivot = this.#head[least]!;
      order[step] = pivot;
      const clique = this.#eliminate(pivot, sparse - step - 1);
      fill += clique.length;
      if (fill > fillLimit) return null;
      for (const i of clique) if (this.#degree[i]! < least) least = this.#degree[i]!;
    }
    order.set(this.#dense, sparse);
    return order;
  }

  /** Takes the pivot out and joins its neighbours; `left` nodes remain. */
  #eliminate(pivot: number, left: number): number[] {
    this.#leave(pivot);
    this.#gone[pivot] = 1;
    const clique = this.#join(pivot);
    this.#clique[pivot] = clique.length > 0 ? clique : null;
    this.#countOutside(clique);
    for (const i of clique) this.#leave(i);
    for (const i of clique) this.#renew(i, pivot, clique.length - 1, left);
    for (const i of clique) this.#enter(i);
    return clique;
  }

  /** All neighbours of the pivot, its own and those by its elements, which it absorbs. */
  #join(pivot: number): number[] {
    const stamp = ++this.#stamp;
    const clique: number[] = [];
    this.#mark[pivot] = stamp;
    const take = (list: readonly number[]): void => {
      for (const i of list) {
        if (this.#mark[i] === stamp || this.#gone[i] === 1) continue;
        this.#mark[i] = stamp;
        clique.push(i);
      }
    };
    take(this.#variables[pivot]!);
    for (const element of this.#elements[pivot]!) {
      const list = this.#clique[element];
      if (list === null || list === undefined) continue;
      take(list);
      this.#clique[element] = null;
    }
    this.#variables[pivot] = [];
    this.#elements[pivot] = [];
    return clique;
  }

  /** How many nodes of each neighbouring element lie outside the clique just marked. */
  #countOutside(clique: readonly number[]): void {
    const stamp = this.#stamp;
    for (const i of clique) {
      for (const element of this.#elements[i]!) {
        const list = this.#clique[element];
        if (list === null || list === undefined) continue;
        if (this.#outsideMark[element] !== stamp) {
          this.#outsideMark[element] = stamp;
          this.#outside[element] = list.length;
        }
        this.#outside[element]!--;
      }
    }
  }

  #renew(i: number, pivot: number, others: number, left: number): void {
    const stamp = this.#stamp;
    let degree = others;
    const elements = [pivot];
    for (const element of this.#elements[i]!) {
      if (this.#clique[element] === null) continue;
      // An element that lies within the new one says nothing more.
      if (this.#outside[element]! <= 0) continue;
      elements.push(element);
      degree += this.#outside[element]!;
    }
    this.#elements[i] = elements;
    const list = this.#variables[i]!;
    let kept = 0;
    for (const j of list) if (this.#gone[j] === 0 && this.#mark[j] !== stamp) list[kept++] = j;
    list.length = kept;
    degree += kept;
    this.#degree[i] = Math.min(left, this.#degree[i]! + others, degree);
  }

  #enter(i: number): void {
    const degree = this.#degree[i]!;
    const first = this.#head[degree]!;
    this.#next[i] = first;
    this.#previous[i] = -1;
    if (first >= 0) this.#previous[first] = i;
    this.#head[degree] = i;
  }

  #leave(i: number): void {
    const [before, after] = [this.#previous[i]!, this.#next[i]!];
    if (before >= 0) this.#next[before] = after;
    else this.#head[this.#degree[i]!] = after;
    if (after >= 0) this.#previous[after] = before;
  }
}
