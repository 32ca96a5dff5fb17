import { eliminationOrder, type Elimination } from './elimination-order.js';
import type { StateTable, Watch } from './clique-tree.js';
import type { ReducedNetwork } from './reduced-network.js';

export interface SamplerOptions extends Watch {
  readonly seed: number;
  readonly sweeps: number;
  /** Entries of the largest table a block may need. */
  readonly blockLimit: number;
}

/** One way to split the variables: some held fixed, the rest drawn together exactly. */
interface Block {
  readonly elimination: Elimination;
  readonly steps: readonly Step[];
}

interface Step {
  readonly variable: number;
  readonly ties: readonly number[];
  /** Tables first touched here, as factor places. */
  readonly factors: readonly number[];
  /** Earlier steps whose remaining table ends up here. */
  readonly messages: readonly number[];
}

function compile(reduced: ReducedNetwork, elimination: Elimination): Block {
  const place = new Int32Array(reduced.graph.states.length).fill(-1);
  elimination.order.forEach((v, i) => (place[v] = i));
  const factors: number[][] = elimination.order.map(() => []);
  reduced.tables.forEach((table, f) => {
    const places = table.variables.map((v) => place[v] ?? -1).filter((p) => p >= 0);
    if (places.length > 0) factors[Math.min(...places)]?.push(f);
  });
  const messages: number[][] = elimination.order.map(() => []);
  elimination.order.forEach((v, i) => {
    const later = (elimination.ties[v] ?? []).map((u) => place[u] ?? 0);
    if (later.length > 0) messages[Math.min(...later)]?.push(i);
  });
  const steps = elimination.order.map((variable, i) => ({
    variable,
    ties: elimination.ties[variable] ?? [],
    factors: factors[i] ?? [],
    messages: messages[i] ?? [],
  }));
  return { elimination, steps };
}

/** Place of an assignment in a table, from the current states. */
function placeIn(table: StateTable, states: readonly number[], state: Int32Array): number {
  let at = 0;
  for (const v of table.variables) at = at * (states[v] ?? 1) + (state[v] ?? 0);
  return at;
}

/**
 * Draws all free variables of a block from their exact joint distribution given the fixed ones: sums forward in the order,
 * draws backward (forward filtering, backward sampling; for pedigrees Jensen, Kong & Kjaerulff 1995).
 */
function drawBlock(
  reduced: ReducedNetwork,
  tables: readonly StateTable[],
  block: Block,
  state: Int32Array,
  random: () => number,
): boolean {
  const { states } = reduced.graph;
  const weights: Float64Array[] = [];
  const sent: StateTable[] = [];
  for (const [i, step] of block.steps.entries()) {
    const own = states[step.variable] ?? 1;
    const size = step.ties.reduce((product, v) => product * (states[v] ?? 1), 1);
    const table = new Float64Array(size * own);
    const message = new Float64Array(size);
    const parts = [
      ...step.factors.map((f) => tables[f]),
      ...step.messages.map((m) => sent[m]),
    ].filter((part) => part !== undefined);
    let top = 0;
    for (let outer = 0; outer < size; outer++) {
      let left = outer;
      for (let k = step.ties.length - 1; k >= 0; k--) {
        const v = step.ties[k] ?? 0;
        const n = states[v] ?? 1;
        state[v] = left % n;
        left = Math.floor(left / n);
      }
      let sum = 0;
      for (let x = 0; x < own; x++) {
        state[step.variable] = x;
        let product = 1;
        for (const part of parts) {
          product *= part.values[placeIn(part, states, state)] ?? 0;
          if (product === 0) break;
        }
        table[outer * own + x] = product;
        sum += product;
      }
      message[outer] = sum;
      if (sum > top) top = sum;
    }
    if (top === 0) return false;
    for (let k = 0; k < size; k++) message[k]! /= top;
    weights.push(table);
    sent[i] = { variables: step.ties, values: message };
  }
  for (let i = block.steps.length - 1; i >= 0; i--) {
    const step = block.steps[i];
    const table = weights[i];
    if (!step || !table) continue;
    const own = states[step.variable] ?? 1;
    let outer = 0;
    for (const v of step.ties) outer = outer * (states[v] ?? 1) + (state[v] ?? 0);
    let sum = 0;
    for (let x = 0; x < own; x++) sum += table[outer * own + x] ?? 0;
    if (sum === 0) return false;
    let draw = random() * sum;
    let x = 0;
    for (; x < own - 1; x++) {
      draw -= table[outer * own + x] ?? 0;
      if (draw < 0) break;
    }
    while (x > 0 && table[outer * own + x] === 0) x--;
    state[step.variable] = x;
  }
  return true;
}

function makeBlocks(
  reduced: ReducedNetwork,
  options: SamplerOptions,
  random: () => number,
): Block[] {
  const blocks: Block[] = [];
  const everFree = new Uint8Array(reduced.graph.states.length);
  // At least four different splits, and more until every variable has been free in one.
  for (let tries = 0; tries < 40; tries++) {
    const found = eliminationOrder(reduced.graph, {
      rule: 'fewest-states',
      limit: options.blockLimit,
      hold: true,
      random,
    });
    if (!found) continue;
    for (const v of found.order) everFree[v] = 1;
    blocks.push(compile(reduced, found));
    if (blocks.length >= 4 && everFree.every((free) => free === 1)) break;
  }
  return blocks;
}

const product = (reduced: ReducedNetwork, tables: readonly StateTable[], state: Int32Array) =>
  tables.every((table) => (table.values[placeIn(table, reduced.graph.states, state)] ?? 0) > 0);

/** A first assignment that no table excludes, by drawing with softened zeros that harden from sweep to sweep. */
function findStart(
  reduced: ReducedNetwork,
  blocks: readonly Block[],
  state: Int32Array,
  random: () => number,
): boolean {
  for (let v = 0; v < state.length; v++) {
    state[v] = Math.floor(random() * (reduced.graph.states[v] ?? 1));
  }
  for (let sweep = 0; sweep < 400; sweep++) {
    const floor = 10 ** -(1 + Math.min(sweep, 60) / 10);
    const soft = reduced.tables.map((table) => ({
      variables: table.variables,
      values: table.values.map((value) => Math.max(value, floor)),
    }));
    const block = blocks[sweep % blocks.length];
    if (block) drawBlock(reduced, soft, block, state, random);
    if (product(reduced, reduced.tables, state)) return true;
  }
  return false;
}

/**
 * Blocked Gibbs sampling over a reduced network: in turn, all variables but a small set are drawn jointly and exactly given
 * that set, with several different sets. `visit` gets the state after each sweep kept. Returns false when no possible start
 * was found.
 *
 * Cost a sweep: the summed entries of the block's tables times the tables on each.
 */
export function sampleBlocks(
  reduced: ReducedNetwork,
  options: SamplerOptions,
  random: () => number,
  visit: (state: Int32Array, kept: number) => void,
  cancelled: () => never,
): boolean {
  const blocks = makeBlocks(reduced, options, random);
  const state = new Int32Array(reduced.graph.states.length);
  if (!findStart(reduced, blocks, state, random)) return false;
  const warmUp = Math.ceil(options.sweeps / 10);
  for (let sweep = 0; sweep < warmUp + options.sweeps; sweep++) {
    if (options.signal?.aborted) cancelled();
    if (sweep % 16 === 0) options.onProgress?.(sweep, warmUp + options.sweeps);
    const before = state.slice();
    const block = blocks[sweep % blocks.length];
    if (block && !drawBlock(reduced, reduced.tables, block, state, random)) state.set(before);
    if (sweep >= warmUp) visit(state, sweep - warmUp);
  }
  return true;
}
