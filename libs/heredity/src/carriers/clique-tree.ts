import { CliqueDraw } from './clique-draw.js';
import type { Elimination } from './elimination-order.js';

/** A table over variables with any numbers of states; the last variable runs fastest. */
export interface StateTable {
  readonly variables: readonly number[];
  readonly values: Float64Array;
}

interface Clique {
  readonly variables: readonly number[];
  readonly sizes: readonly number[];
  readonly entries: number;
  readonly parent: number;
  readonly children: readonly number[];
  /** Variables shared with the parent. */
  readonly shared: readonly number[];
}

interface Structure {
  readonly states: readonly number[];
  readonly cliques: readonly Clique[];
  readonly roots: readonly number[];
  /** Clique in which a variable is summed out: it holds the variable and all it is tied to then. */
  readonly home: Int32Array;
}

/** Reports how far a long computation is, and stops it. */
export interface Watch {
  readonly onProgress?: (done: number, total: number) => void;
  readonly signal?: { readonly aborted: boolean };
}

function buildStructure(states: readonly number[], elimination: Elimination): Structure {
  const place = new Int32Array(states.length).fill(-1);
  elimination.order.forEach((v, i) => (place[v] = i));
  const count = elimination.order.length;
  const home = new Int32Array(states.length).fill(-1);
  const members: number[][] = [];
  /** By clique: how many of its variables are still to be summed out. */
  const left: number[] = [];
  /** By place: the clique with the most variables left, of which the one at this place is the next. */
  const leader = new Int32Array(count).fill(-1);
  const parentVariable: number[] = [];
  for (let i = 0; i < count; i++) {
    const v = elimination.order[i] ?? 0;
    const around = [...(elimination.ties[v] ?? [])].sort(
      (a, b) => (place[a] ?? 0) - (place[b] ?? 0),
    );
    // What is left of an earlier clique is among v and its ties; when it is all of them, no clique of their own is needed.
    const earlier = leader[i] ?? -1;
    const clique =
      earlier >= 0 && left[earlier] === around.length + 1
        ? earlier
        : members.push([v, ...around]) - 1;
    left[clique] = around.length;
    home[v] = clique;
    const next = around[0];
    parentVariable[clique] = next ?? -1;
    if (next === undefined) continue;
    const at = place[next] ?? 0;
    const known = leader[at] ?? -1;
    if (known < 0 || (left[known] ?? 0) < around.length) leader[at] = clique;
  }
  return finish(states, members, parentVariable, home);
}

function finish(
  states: readonly number[],
  members: readonly (readonly number[])[],
  parentVariable: readonly number[],
  home: Int32Array,
): Structure {
  const children: number[][] = members.map(() => []);
  const parents = members.map((_, c) => {
    const v = parentVariable[c] ?? -1;
    return v < 0 ? -1 : (home[v] ?? -1);
  });
  const roots: number[] = [];
  parents.forEach((parent, c) => {
    if (parent < 0) roots.push(c);
    else children[parent]?.push(c);
  });
  const cliques = members.map((variables, c): Clique => {
    const parent = parents[c] ?? -1;
    const above = new Set(parent < 0 ? [] : members[parent]);
    const sizes = variables.map((v) => states[v] ?? 1);
    return {
      variables,
      sizes,
      entries: sizes.reduce((a, b) => a * b, 1),
      parent,
      children: children[c] ?? [],
      shared: variables.filter((v) => above.has(v)),
    };
  });
  return { states, cliques, roots, home };
}

/** Calls `visit(entry, place in the smaller table)` for all entries of a clique. */
function walk(
  clique: Clique,
  variables: readonly number[],
  states: readonly number[],
  visit: (entry: number, inside: number) => void,
): void {
  const strides = clique.variables.map(() => 0);
  let stride = 1;
  for (let k = variables.length - 1; k >= 0; k--) {
    const v = variables[k] ?? 0;
    strides[clique.variables.indexOf(v)] = stride;
    stride *= states[v] ?? 1;
  }
  const digits = clique.sizes.map(() => 0);
  const last = digits.length - 1;
  let inside = 0;
  for (let entry = 0; entry < clique.entries; entry++) {
    visit(entry, inside);
    for (let k = last; k >= 0; k--) {
      const digit = (digits[k] ?? 0) + 1;
      inside += strides[k] ?? 0;
      if (digit < (clique.sizes[k] ?? 1)) {
        digits[k] = digit;
        break;
      }
      inside -= digit * (strides[k] ?? 0);
      digits[k] = 0;
    }
  }
}

function multiply(
  values: Float64Array,
  clique: Clique,
  by: StateTable,
  states: readonly number[],
): void {
  const factor = by.values;
  walk(clique, by.variables, states, (entry, inside) => {
    values[entry]! *= factor[inside] ?? 0;
  });
}

function sumTo(
  values: Float64Array,
  clique: Clique,
  variables: readonly number[],
  states: readonly number[],
): Float64Array {
  const out = new Float64Array(variables.reduce((product, v) => product * (states[v] ?? 1), 1));
  walk(clique, variables, states, (entry, inside) => {
    out[inside]! += values[entry] ?? 0;
  });
  return out;
}

/** Divides by the largest value and returns its logarithm; -Infinity for a table of zeros. */
function rescale(values: Float64Array): number {
  let top = 0;
  for (const value of values) if (value > top) top = value;
  if (top === 0) return -Infinity;
  for (let i = 0; i < values.length; i++) values[i]! /= top;
  return Math.log(top);
}

/**
 * A tree of cliques over a product of tables: exact marginals of any of its variables (Lauritzen & Spiegelhalter 1988, with
 * the division of Jensen et al. 1990).
 *
 * Immutable for its users: {@link with} shares all that a further table leaves as it was, and redoes only the way from the
 * clique concerned to the root. Cost: the summed entries of the cliques times the tables on each.
 */
export class CliqueTree {
  readonly #structure: Structure;
  readonly #factors: readonly (readonly StateTable[])[];
  readonly #up: readonly (Float64Array | null)[];
  readonly #logs: readonly number[];
  readonly #beliefs: (Float64Array | null)[];

  private constructor(
    structure: Structure,
    factors: readonly (readonly StateTable[])[],
    up: readonly (Float64Array | null)[],
    logs: readonly number[],
  ) {
    this.#structure = structure;
    this.#factors = factors;
    this.#up = up;
    this.#logs = logs;
    this.#beliefs = structure.cliques.map(() => null);
  }

  /** Builds the tree and sums inward once. `cancelled` throws the caller's error. */
  static build(
    states: readonly number[],
    elimination: Elimination,
    tables: readonly StateTable[],
    watch: Watch,
    cancelled: () => never,
  ): CliqueTree {
    const structure = buildStructure(states, elimination);
    const place = new Map(elimination.order.map((v, i) => [v, i]));
    const factors: StateTable[][] = structure.cliques.map(() => []);
    for (const table of tables) {
      let first = table.variables[0] ?? 0;
      for (const v of table.variables) {
        if ((place.get(v) ?? 0) < (place.get(first) ?? 0)) first = v;
      }
      factors[structure.home[first] ?? 0]?.push(table);
    }
    const up: (Float64Array | null)[] = structure.cliques.map(() => null);
    const logs = structure.cliques.map(() => 0);
    const order = inward(structure);
    order.forEach((c, done) => {
      if (watch.signal?.aborted) cancelled();
      if (done % 256 === 0) watch.onProgress?.(done, order.length);
      sendUp(structure, factors, up, logs, c);
    });
    return new CliqueTree(structure, factors, up, logs);
  }

  /** ln of the summed product of all tables; -Infinity when it is zero. */
  get logTotal(): number {
    return this.#logs.reduce((a, b) => a + b, 0);
  }

  /** A clique that holds all the variables, or -1. */
  cliqueOf(variables: readonly number[]): number {
    for (const v of variables) {
      const home = this.#structure.home[v] ?? -1;
      const clique = this.#structure.cliques[home];
      if (clique && variables.every((u) => clique.variables.includes(u))) return home;
    }
    return -1;
  }

  /** The tree with one more table, whose variables must lie in one clique. */
  with(table: StateTable): CliqueTree {
    const clique = this.cliqueOf(table.variables);
    return this.#redone(clique, [...(this.#factors[clique] ?? []), table]);
  }

  /** The tree without a table it was given, named by the object itself. */
  without(table: StateTable): CliqueTree {
    const clique = this.#factors.findIndex((list) => list.includes(table));
    return clique < 0
      ? this
      : this.#redone(
          clique,
          (this.#factors[clique] ?? []).filter((one) => one !== table),
        );
  }

  #redone(clique: number, tables: readonly StateTable[]): CliqueTree {
    const factors = [...this.#factors];
    factors[clique] = tables;
    const up = [...this.#up];
    const logs = [...this.#logs];
    for (let c = clique; c >= 0; c = this.#structure.cliques[c]?.parent ?? -1) {
      sendUp(this.#structure, factors, up, logs, c);
    }
    return new CliqueTree(this.#structure, factors, up, logs);
  }

  /** Probabilities over the states of variables that lie in one clique, in the order given. */
  marginal(variables: readonly number[]): Float64Array {
    const home = this.cliqueOf(variables);
    const clique = this.#structure.cliques[home];
    if (!clique) return new Float64Array(0);
    const out = sumTo(this.#belief(home), clique, variables, this.#structure.states);
    const total = out.reduce((a, b) => a + b, 0);
    return total > 0 ? out.map((value) => value / total) : out;
  }

  /**
   * Draws of variables from their joint distribution, `count` times as many as variables, draw by draw: sums inward, draws outward
   * (forward filtering, backward sampling). Cost: the tables of the cliques from the roots to these variables once, then for each draw
   * one look into each of them.
   */
  draws(variables: readonly number[], count: number, random: () => number): Uint8Array {
    const { cliques, roots, home, states } = this.#structure;
    const needed = new Set<number>();
    for (const v of variables)
      for (let c = home[v] ?? -1; c >= 0 && !needed.has(c); c = cliques[c]?.parent ?? -1)
        needed.add(c);
    const steps: CliqueDraw[] = [];
    const stack = roots.filter((c) => needed.has(c));
    for (let c = stack.pop(); c !== undefined; c = stack.pop()) {
      steps.push(this.#drawOf(c));
      stack.push(...(cliques[c]?.children ?? []).filter((one) => needed.has(one)));
    }
    const state = new Uint8Array(states.length);
    const out = new Uint8Array(count * variables.length);
    for (let k = 0; k < count; k++) {
      for (const step of steps) step.draw(state, random);
      variables.forEach((v, i) => (out[k * variables.length + i] = state[v] ?? 0));
    }
    return out;
  }

  #drawOf(c: number): CliqueDraw {
    const structure = this.#structure;
    const clique = structure.cliques[c]!;
    const places = new Int32Array(clique.entries);
    walk(clique, clique.shared, structure.states, (entry, inside) => (places[entry] = inside));
    const values = potential(structure, this.#factors, this.#up, c);
    return new CliqueDraw({ ...clique, given: clique.shared }, values, places);
  }

  /** Calls `visit` with the marginal of every variable, keeping few tables at a time. */
  visitMarginals(
    visit: (variable: number, probabilities: Float64Array) => void,
    watch: Watch,
    cancelled: () => never,
  ): void {
    const { cliques, roots, home } = this.#structure;
    const at: number[][] = cliques.map(() => []);
    home.forEach((c, v) => {
      if (c >= 0) at[c]?.push(v);
    });
    const waiting = cliques.map((clique) => clique.children.length);
    const stack = [...roots];
    let done = 0;
    for (let c = stack.pop(); c !== undefined; c = stack.pop()) {
      if (watch.signal?.aborted) cancelled();
      if (done++ % 256 === 0) watch.onProgress?.(done, cliques.length);
      const clique = cliques[c];
      if (!clique) continue;
      this.#belief(c);
      for (const v of at[c] ?? []) visit(v, this.marginal([v]));
      stack.push(...clique.children);
      if (clique.parent >= 0 && --waiting[clique.parent]! === 0)
        this.#beliefs[clique.parent] = null;
      if (clique.children.length === 0) this.#beliefs[c] = null;
    }
  }

  #belief(c: number): Float64Array {
    const way: number[] = [];
    for (let at = c; at >= 0 && !this.#beliefs[at]; at = this.#structure.cliques[at]?.parent ?? -1)
      way.push(at);
    for (const at of way.reverse()) this.#beliefs[at] = this.#computeBelief(at);
    return this.#beliefs[c] ?? new Float64Array(0);
  }

  #computeBelief(c: number): Float64Array {
    const { cliques, states } = this.#structure;
    const clique = cliques[c];
    if (!clique) return new Float64Array(0);
    const values = potential(this.#structure, this.#factors, this.#up, c);
    const parent = cliques[clique.parent];
    const above = this.#beliefs[clique.parent];
    if (parent && above) {
      const shared = sumTo(above, parent, clique.shared, states);
      const sent = this.#up[c];
      // Where the clique itself sent zero the parent's belief is zero too, and 0/0 stands for 0.
      for (let i = 0; i < shared.length; i++)
        shared[i] = sent?.[i] ? (shared[i] ?? 0) / (sent[i] ?? 1) : 0;
      multiply(values, clique, { variables: clique.shared, values: shared }, states);
    }
    rescale(values);
    return values;
  }
}

/** Children before parents. */
function inward({ cliques, roots }: Structure): number[] {
  const order: number[] = [];
  const stack = [...roots];
  for (let c = stack.pop(); c !== undefined; c = stack.pop()) {
    order.push(c);
    stack.push(...(cliques[c]?.children ?? []));
  }
  return order.reverse();
}

function potential(
  structure: Structure,
  factors: readonly (readonly StateTable[])[],
  up: readonly (Float64Array | null)[],
  c: number,
): Float64Array {
  const clique = structure.cliques[c];
  if (!clique) return new Float64Array(0);
  const values = new Float64Array(clique.entries).fill(1);
  for (const table of factors[c] ?? []) multiply(values, clique, table, structure.states);
  for (const child of clique.children) {
    const sent = up[child];
    const variables = structure.cliques[child]?.shared;
    if (sent && variables) multiply(values, clique, { variables, values: sent }, structure.states);
  }
  return values;
}

function sendUp(
  structure: Structure,
  factors: readonly (readonly StateTable[])[],
  up: (Float64Array | null)[],
  logs: number[],
  c: number,
): void {
  const clique = structure.cliques[c];
  if (!clique) return;
  const values = potential(structure, factors, up, c);
  const sent = sumTo(values, clique, clique.shared, structure.states);
  logs[c] = rescale(sent);
  up[c] = sent;
}
