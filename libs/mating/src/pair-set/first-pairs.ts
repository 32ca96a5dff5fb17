import type { PairRules } from './swaps.js';

/** Partners of each candidate that the solver is given to begin with. */
const PARTNERS = 8;

/** For each candidate its pairs of most worth. */
export function startingCells({ cells, open, parts }: PairRules, worth: Float64Array): Set<number> {
  const order = [...open.keys()].filter((cell) => open[cell] === 1);
  order.sort((a, b) => worth[b]! - worth[a]! || a - b);
  const ofFish = new Int32Array(parts.size);
  const chosen = new Set<number>();
  for (const cell of order)
    for (const fish of [cells.male[cell]!, cells.female[cell]!])
      if (ofFish[fish]! < PARTNERS) {
        ofFish[fish]!++;
        chosen.add(cell);
      }
  return chosen;
}

/** Whole pairs near a solution with fractions: the largest shares first, then most worth; null when they cannot be completed so. */
export function nearShares(
  { cells, parts, mostOf, least, fixed, open }: PairRules,
  share: Float64Array,
  worth: Float64Array,
  pairs: number,
): number[] | null {
  const order = [...open.keys()]
    .filter((cell) => open[cell] === 1 && !fixed.has(cell))
    .sort((a, b) => share[b]! - share[a]! || worth[b]! - worth[a]! || a - b);
  const count = new Int32Array(parts.size);
  const chosen = new Set<number>();
  const take = (cell: number): void => {
    const [m, f] = [cells.male[cell]!, cells.female[cell]!];
    const full = count[m]! >= mostOf[m]! || count[f]! >= mostOf[f]!;
    if (full || chosen.size >= pairs || chosen.has(cell)) return;
    chosen.add(cell);
    count[m]!++;
    count[f]!++;
  };
  fixed.forEach(take);
  const needed = (fish: number): boolean => count[fish]! < least[fish]!;
  for (const cell of order)
    if (needed(cells.male[cell]!) || needed(cells.female[cell]!)) take(cell);
  order.forEach(take);
  const complete = chosen.size === pairs && !least.some((low, fish) => count[fish]! < low);
  return complete ? [...chosen] : null;
}
