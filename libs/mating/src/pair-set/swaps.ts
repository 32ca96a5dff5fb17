import { squareOf, timesKinship, type KinshipParts } from './kinship-parts.js';
import type { Cells } from './pair-problem.js';

/** What whole pairs have to keep to. */
export interface PairRules {
  readonly cells: Cells;
  readonly parts: KinshipParts;
  /** Most broods of each fish. */
  readonly mostOf: Int32Array;
  /** Least broods of each fish. */
  readonly least: Uint8Array;
  /** Cells that must be chosen, and those that must not. */
  readonly fixed: ReadonlySet<number>;
  readonly open: Uint8Array;
  /** Largest n'Kn, n counting the broods of each candidate; Infinity: no limit. */
  readonly most: number;
}

/**
 * Makes whole pairs better by exchanging one pair for another as long as one exchange helps: first towards the limit on coancestry, then
 * towards worth within it. It finds good pairs, and proves nothing.
 *
 * Cost: pairs x cells an exchange.
 */
export function improveBySwaps(
  rules: PairRules,
  start: readonly number[],
  worth: Float64Array,
): number[] {
  const chosen = [...start];
  const count = countsOf(rules, chosen);
  for (let turn = 0; turn < 200; turn++) {
    const swap = bestSwap(rules, chosen, count, worth);
    if (swap === null) return chosen;
    const [place, cell] = swap;
    move(rules.cells, count, chosen[place]!, -1);
    move(rules.cells, count, cell, 1);
    chosen[place] = cell;
  }
  return chosen;
}

export function countsOf({ cells, parts }: PairRules, chosen: readonly number[]): Int32Array {
  const count = new Int32Array(parts.size);
  for (const cell of chosen) move(cells, count, cell, 1);
  return count;
}

function move({ male, female }: Cells, count: Int32Array, cell: number, by: number): void {
  count[male[cell]!]! += by;
  count[female[cell]!]! += by;
}

/** The exchange that helps most: less above the limit, then more worth. */
function bestSwap(
  rules: PairRules,
  chosen: readonly number[],
  count: Int32Array,
  worth: Float64Array,
): readonly [number, number] | null {
  const { cells, parts, open, most, fixed } = rules;
  const taken = new Set(chosen);
  const square = squareOf(parts, count);
  let best: readonly [number, number] | null = null;
  let [over, gain] = [Math.max(0, square - most) - 1e-12, 1e-9];
  const alreadyOver = over > 0;
  chosen.forEach((old, place) => {
    if (fixed.has(old)) return;
    move(cells, count, old, -1);
    const pull = timesKinship(parts, count);
    const rest = squareOf(parts, count);
    for (let cell = 0; cell < open.length; cell++) {
      if (open[cell] === 0 || taken.has(cell)) continue;
      const more = worth[cell]! - worth[old]!;
      if (!alreadyOver && more <= gain) continue;
      if (!fits(rules, count, old, cell)) continue;
      const beyond = Math.max(0, rest + addedSquare(rules, pull, cell) - most);
      if (beyond > Math.max(0, over)) continue;
      if (beyond < over || more > gain) [best, over, gain] = [[place, cell], beyond, more];
    }
    move(cells, count, old, 1);
  });
  return best;
}

/** Whether a cell may stand where another was taken away. */
function fits(
  { cells, mostOf, least }: PairRules,
  count: Int32Array,
  old: number,
  cell: number,
): boolean {
  const [m, f] = [cells.male[cell]!, cells.female[cell]!];
  if (count[m]! >= mostOf[m]! || count[f]! >= mostOf[f]!) return false;
  const [oldMale, oldFemale] = [cells.male[old]!, cells.female[old]!];
  return (
    (oldMale === m || count[oldMale]! >= least[oldMale]!) &&
    (oldFemale === f || count[oldFemale]! >= least[oldFemale]!)
  );
}

/** What one pair more adds to n'Kn. */
function addedSquare({ cells, parts }: PairRules, pull: Float64Array, cell: number): number {
  const { whole, size } = parts;
  const [m, f] = [cells.male[cell]!, cells.female[cell]!];
  const own = whole[m * size + m]! + whole[f * size + f]! + 2 * whole[m * size + f]!;
  return 2 * (pull[m]! + pull[f]!) + own;
}
