import { eliminationOrder, type Elimination } from './elimination-order.js';
import type { StateTable, Watch } from './clique-tree.js';
import type { ReducedNetwork } from './reduced-network.js';

export interface SamplerOptions extends Watch {
  readonly seed: number;
  readonly sweeps: number;
  /** Entries of the largest table a block may need. */
  readonly blockLimit: number;
  /** By place of genotype. */
  readonly heterozygous: readonly boolean[];
}

/** One way to split the variables: some held fixed, the rest drawn together exactly. */
interface Block {
  readonly elimination: Elimination;
  readonly steps: readonly Step[];
}

/** A table taken into a step, with the distance in it that one state of each variable of the step makes. */
interface Part {
  /** Place among the network's tables, or of the earlier step whose remaining table this is. */
  readonly from: number;
  readonly isMessage: boolean;
  readonly ownStride: number;
  readonly tieStrides: readonly number[];
  /** Held variables and their strides. */
  readonly held: readonly (readonly [number, number])[];
}

/** One variable summed out, its tables allocated once and filled again in every sweep. */
interface Step {
  readonly variable: number;
  readonly own: number;
  readonly ties: readonly number[];
  readonly tieSizes: readonly number[];
  readonly parts: readonly Part[];
  readonly weights: Float64Array;
  readonly message: Float64Array;
}

function partOf(
  variables: readonly number[],
  states: readonly number[],
  variable: number,
  ties: readonly number[],
  from: number,
  isMessage: boolean,
): Part {
  const strides = new Map<number, number>();
  let stride = 1;
  for (let k = variables.length - 1; k >= 0; k--) {
    const v = variables[k] ?? 0;
    strides.set(v, stride);
    stride *= states[v] ?? 1;
  }
  const held = [...strides].filter(([v]) => v !== variable && !ties.includes(v));
  return {
    from,
    isMessage,
    ownStride: strides.get(variable) ?? 0,
    tieStrides: ties.map((v) => strides.get(v) ?? 0),
    held,
  };
}

function compile(reduced: ReducedNetwork, elimination: Elimination): Block {
  const { states } = reduced.graph;
  const place = new Int32Array(states.length).fill(-1);
  elimination.order.forEach((v, i) => (place[v] = i));
  const factors: number[][] = elimination.order.map(() => []);
  reduced.tables.forEach((table, f) => {
    const places = table.variables.map((v) => place[v] ?? -1).filter((p) => p >= 0);
    if (places.length > 0) factors[Math.min(...places)]?.push(f);
  });
  // A variable may have been tied to one that was held only later on: that one is a constant here.
  const tiesOf = elimination.order.map((v) =>
    (elimination.ties[v] ?? []).filter((u) => (place[u] ?? -1) >= 0),
  );
  const messages: number[][] = elimination.order.map(() => []);
  tiesOf.forEach((ties, i) => {
    const later = ties.map((u) => place[u] ?? 0);
    if (later.length > 0) messages[Math.min(...later)]?.push(i);
  });
  const steps = elimination.order.map((variable, i): Step => {
    const ties = tiesOf[i] ?? [];
    const tieSizes = ties.map((v) => states[v] ?? 1);
    const own = states[variable] ?? 1;
    const size = tieSizes.reduce((a, b) => a * b, 1);
    return {
      variable,
      own,
      ties,
      tieSizes,
      parts: [
        ...(factors[i] ?? []).map((f) =>
          partOf(reduced.tables[f]?.variables ?? [], states, variable, ties, f, false),
        ),
        ...(messages[i] ?? []).map((m) => partOf(tiesOf[m] ?? [], states, variable, ties, m, true)),
      ],
      weights: new Float64Array(size * own),
      message: new Float64Array(size),
    };
  });
  return { elimination, steps };
}

/** Fills the tables of a step. Returns false when all of them are zero. */
function sumStep(
  reduced: ReducedNetwork,
  steps: readonly Step[],
  step: Step,
  state: Int32Array,
  floor: number,
): boolean {
  const { own, weights, message, tieSizes } = step;
  weights.fill(1);
  for (const part of step.parts) {
    const values = part.isMessage ? steps[part.from]?.message : reduced.tables[part.from]?.values;
    if (!values) continue;
    const least = part.isMessage ? 0 : floor;
    let at = 0;
    for (const [v, stride] of part.held) at += (state[v] ?? 0) * stride;
    const digits = new Int32Array(tieSizes.length);
    for (let outer = 0; outer < message.length; outer++) {
      for (let x = 0; x < own; x++) {
        const value = values[at + x * part.ownStride] ?? 0;
        weights[outer * own + x]! *= value > least ? value : least;
      }
      for (let k = tieSizes.length - 1; k >= 0; k--) {
        const digit = (digits[k] ?? 0) + 1;
        at += part.tieStrides[k] ?? 0;
        if (digit < (tieSizes[k] ?? 1)) {
          digits[k] = digit;
          break;
        }
        at -= digit * (part.tieStrides[k] ?? 0);
        digits[k] = 0;
      }
    }
  }
  let top = 0;
  for (let outer = 0; outer < message.length; outer++) {
    let sum = 0;
    for (let x = 0; x < own; x++) sum += weights[outer * own + x] ?? 0;
    message[outer] = sum;
    if (sum > top) top = sum;
  }
  if (top === 0) return false;
  for (let k = 0; k < message.length; k++) message[k]! /= top;
  return true;
}

/** Draws the variable of a step given its ties. */
function drawStep(step: Step, state: Int32Array, random: () => number): boolean {
  const { own, weights } = step;
  let outer = 0;
  step.ties.forEach((v, k) => (outer = outer * (step.tieSizes[k] ?? 1) + (state[v] ?? 0)));
  let sum = 0;
  for (let x = 0; x < own; x++) sum += weights[outer * own + x] ?? 0;
  if (sum === 0) return false;
  let draw = random() * sum;
  let x = 0;
  for (; x < own - 1; x++) {
    draw -= weights[outer * own + x] ?? 0;
    if (draw < 0) break;
  }
  while (x > 0 && weights[outer * own + x] === 0) x--;
  state[step.variable] = x;
  return true;
}

/**
 * Draws all free variables of a block from their exact joint distribution given the fixed ones: sums forward in the order,
 * draws backward (forward filtering, backward sampling; for pedigrees Jensen, Kong & Kjaerulff 1995). Entries of the
 * network's tables below `floor` are taken as `floor`.
 */
function drawBlock(
  reduced: ReducedNetwork,
  block: Block,
  state: Int32Array,
  random: () => number,
  floor = 0,
): boolean {
  for (const step of block.steps) {
    if (!sumStep(reduced, block.steps, step, state, floor)) return false;
  }
  for (let i = block.steps.length - 1; i >= 0; i--) {
    const step = block.steps[i];
    if (step && !drawStep(step, state, random)) return false;
  }
  return true;
}

/** Place of an assignment in a table, from the current states. */
function placeIn(table: StateTable, states: readonly number[], state: Int32Array): number {
  let at = 0;
  for (const v of table.variables) at = at * (states[v] ?? 1) + (state[v] ?? 0);
  return at;
}

/** A block that draws one variable by itself, given all others. */
function single(reduced: ReducedNetwork, variable: number): Block {
  const ties: number[][] = reduced.graph.states.map(() => []);
  const size = reduced.graph.states[variable] ?? 1;
  return compile(reduced, { order: [variable], ties, largest: size, total: size, fixed: [] });
}

/**
 * At least four splits, each sparing what earlier ones held, so that every variable is free in one; where that cannot be had
 * the variable is drawn by itself. Without this the sampler would keep some fish at their first genotype for ever.
 */
function makeBlocks(
  reduced: ReducedNetwork,
  options: SamplerOptions,
  random: () => number,
): Block[] {
  const blocks: Block[] = [];
  const spare = new Uint8Array(reduced.graph.states.length).fill(1);
  for (let tries = 0; tries < 12; tries++) {
    const found = eliminationOrder(reduced.graph, {
      rule: 'fewest-states',
      limit: options.blockLimit,
      hold: true,
      random,
      ...(blocks.length > 0 ? { spare } : {}),
    });
    if (!found) continue;
    for (const v of found.order) spare[v] = 0;
    blocks.push(compile(reduced, found));
    if (blocks.length >= 4 && spare.every((never) => never === 0)) break;
  }
  for (let v = 0; v < spare.length; v++) if (spare[v]) blocks.push(single(reduced, v));
  return blocks;
}

function isPossible(reduced: ReducedNetwork, state: Int32Array): boolean {
  return reduced.tables.every(
    (table) => (table.values[placeIn(table, reduced.graph.states, state)] ?? 0) > 0,
  );
}

/**
 * A first assignment that no table excludes. Begins with heterozygotes, which can have and be had by nearly anything, and
 * draws with zeros softened until none is left in use.
 */
function findStart(
  reduced: ReducedNetwork,
  blocks: readonly Block[],
  state: Int32Array,
  random: () => number,
  heterozygous: readonly boolean[],
): boolean {
  reduced.genotypesOf.forEach((possible, v) => {
    const mixed = possible.findIndex((g) => heterozygous[g]);
    state[v] = mixed >= 0 ? mixed : Math.floor(random() * possible.length);
  });
  for (let sweep = 0; sweep < 200; sweep++) {
    if (isPossible(reduced, state)) return true;
    const block = blocks[sweep % blocks.length];
    if (block) drawBlock(reduced, block, state, random, 10 ** -(4 + Math.min(sweep, 40) / 10));
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
  if (!findStart(reduced, blocks, state, random, options.heterozygous)) return false;
  const warmUp = Math.ceil(options.sweeps / 10);
  for (let sweep = 0; sweep < warmUp + options.sweeps; sweep++) {
    if (options.signal?.aborted) cancelled();
    if (sweep % 16 === 0) options.onProgress?.(sweep, warmUp + options.sweeps);
    const before = state.slice();
    const block = blocks[sweep % blocks.length];
    if (block && !drawBlock(reduced, block, state, random)) state.set(before);
    if (sweep >= warmUp) visit(state, sweep - warmUp);
  }
  return true;
}
