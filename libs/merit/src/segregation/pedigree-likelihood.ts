import type { Pedigree } from '@linewright/pedigree';
import { MeritError } from '../merit-error.js';
import type { LocusModel } from './locus-model.js';

/** A table over the states of some fish; the last of them moves fastest. */
interface Table {
  readonly fish: readonly number[];
  readonly values: Float64Array;
}

const LARGEST_TABLE = 3 ** 13;

/**
 * ln likelihood of what was seen in a pedigree under a hypothesis: the sum over the states of all fish, one fish after the other, loops and all.
 *
 * Source: Elston RC & Stewart J (1971) Hum Hered 21:523-542; any order of summing, Cannings, Thompson & Skolnick (1978).
 *
 * @param seen 1 shown, 0 not shown, -1 not looked at, by fish.
 * @param given states that are known, by fish.
 * @throws MeritError MERIT_TOO_LARGE when too many fish hang together at a time, MERIT_LENGTH_MISMATCH.
 * Cost: states to the power of the most fish that hang together.
 */
export function pedigreeLogLikelihood(
  pedigree: Pedigree,
  seen: ArrayLike<number>,
  model: LocusModel,
  given: ReadonlyMap<number, number> = new Map(),
): number {
  if (seen.length !== pedigree.size)
    throw new MeritError(
      'MERIT_LENGTH_MISMATCH',
      `${seen.length} observations for ${pedigree.size} fish: give one a fish.`,
    );
  const matters = whoMatters(pedigree, seen, given);
  const tables: Table[] = [];
  for (let i = 0; i < pedigree.size; i++)
    if (matters[i] === 1) tables.push(ownTable(pedigree, i, seen[i]!, model, given.get(i)));
  return new Summation(model.states, tables).run();
}

/** Fish that were seen or have a descendant that was: the others sum to 1. */
function whoMatters(
  { size, sire, dam }: Pedigree,
  seen: ArrayLike<number>,
  given: ReadonlyMap<number, number>,
): Uint8Array {
  const matters = new Uint8Array(size);
  for (let i = size - 1; i >= 0; i--) {
    if (seen[i]! >= 0 || given.has(i)) matters[i] = 1;
    if (matters[i] === 0) continue;
    if (sire[i]! >= 0) matters[sire[i]!] = 1;
    if (dam[i]! >= 0) matters[dam[i]!] = 1;
  }
  return matters;
}

/** A fish given its parents, with what was seen of it; an unknown parent is any founder. */
function ownTable(
  { sire, dam }: Pedigree,
  fish: number,
  seen: number,
  { states, founders, passing, shown }: LocusModel,
  known: number | undefined,
): Table {
  const own = Float64Array.from({ length: states }, (_, state) => {
    if (known !== undefined && known !== state) return 0;
    return seen < 0 ? 1 : seen === 1 ? shown[state]! : 1 - shown[state]!;
  });
  const parents = [sire[fish]!, dam[fish]!].filter((parent) => parent >= 0);
  if (parents.length === 0)
    return { fish: [fish], values: own.map((v, state) => v * founders[state]!) };
  const values = new Float64Array(states ** (parents.length + 1));
  for (let s = 0; s < states; s++) {
    for (let d = 0; d < states; d++) {
      for (let y = 0; y < states; y++) {
        const p = passing[(s * states + d) * states + y]! * own[y]!;
        // Which sex the unknown one is does not matter.
        if (parents.length === 2) values[(s * states + d) * states + y] = p;
        else values[s * states + y]! += p * founders[d]!;
      }
    }
  }
  return { fish: [...parents, fish], values };
}

class Summation {
  /** Tables in which each fish stands. */
  readonly #tablesOf = new Map<number, Set<Table>>();
  #log = 0;

  constructor(
    readonly states: number,
    tables: readonly Table[],
  ) {
    for (const table of tables) this.#enter(table);
  }

  run(): number {
    // Fish without young first: they tie nobody that is not tied already.
    while (this.#tablesOf.size > 0) {
      this.#sumOut(this.#next());
      if (this.#log === -Infinity) return -Infinity;
    }
    return this.#log;
  }

  /** Tables over the same fish, as many sibs leave on their parents, become one. */
  #enter(table: Table): void {
    const key = table.fish.join(' ');
    const [first] = table.fish;
    for (const other of this.#tablesOf.get(first!) ?? []) {
      if (other.fish.length !== table.fish.length || other.fish.join(' ') !== key) continue;
      for (let k = 0; k < table.values.length; k++) other.values[k]! *= table.values[k]!;
      this.#scale(other.values);
      return;
    }
    for (const fish of table.fish) {
      const set = this.#tablesOf.get(fish);
      if (set === undefined) this.#tablesOf.set(fish, new Set([table]));
      else set.add(table);
    }
  }

  #neighbours(fish: number): Set<number> {
    const all = new Set<number>();
    for (const table of this.#tablesOf.get(fish)!) for (const other of table.fish) all.add(other);
    all.delete(fish);
    return all;
  }

  /** The fish with the fewest others tied to it. */
  #next(): number {
    let best = -1;
    let fewest = Infinity;
    for (const fish of this.#tablesOf.keys()) {
      const count = this.#neighbours(fish).size;
      if (count < fewest) [best, fewest] = [fish, count];
      if (fewest <= 1) break;
    }
    return best;
  }

  #sumOut(fish: number): void {
    const tables = [...this.#tablesOf.get(fish)!];
    const others = [...this.#neighbours(fish)].sort((a, b) => a - b);
    const size = this.states ** others.length;
    if (size * this.states > LARGEST_TABLE) {
      throw new MeritError(
        'MERIT_TOO_LARGE',
        'This pedigree is too tangled for these loci: too many fish hang together. Take fewer generations, or fewer loci.',
        { together: others.length + 1 },
      );
    }
    const order = [...others, fish];
    const steps = tables.map((table) => strides(table, order, this.states));
    const values = new Float64Array(size);
    const digits = new Int32Array(order.length);
    const places = new Int32Array(tables.length);
    for (let cell = 0; cell < size; cell++) {
      let sum = 0;
      for (let state = 0; state < this.states; state++) {
        let product = 1;
        for (let t = 0; t < tables.length; t++) {
          product *= tables[t]!.values[places[t]! + state * steps[t]![others.length]!]!;
          if (product === 0) break;
        }
        sum += product;
      }
      values[cell] = sum;
      advance(digits, places, steps, others.length, this.states);
    }
    for (const table of tables) for (const of of table.fish) this.#tablesOf.get(of)?.delete(table);
    this.#tablesOf.delete(fish);
    this.#scale(values);
    if (others.length > 0) this.#enter({ fish: others, values });
  }

  /** Keeps the largest value at 1, so that nothing runs out of range. */
  #scale(values: Float64Array): void {
    let most = 0;
    for (const value of values) if (value > most) most = value;
    this.#log += Math.log(most);
    if (most > 0) for (let k = 0; k < values.length; k++) values[k]! /= most;
  }
}

/** By how much a table's place moves when the state of each fish in `order` moves by one. */
function strides({ fish }: Table, order: readonly number[], states: number): Int32Array {
  return Int32Array.from(order, (of) => {
    const at = fish.indexOf(of);
    return at < 0 ? 0 : states ** (fish.length - 1 - at);
  });
}

function advance(
  digits: Int32Array,
  places: Int32Array,
  steps: readonly Int32Array[],
  count: number,
  states: number,
): void {
  for (let k = count - 1; k >= 0; k--) {
    const wraps = digits[k] === states - 1;
    const by = wraps ? 1 - states : 1;
    digits[k]! += by;
    for (let t = 0; t < places.length; t++) places[t]! += by * steps[t]![k]!;
    if (!wraps) return;
  }
}
