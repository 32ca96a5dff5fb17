import type { BoundedProblem } from './contribution-problem.js';

/**
 * Contributions near the best for one weight of worth against coancestry, quickly: from those given, shares are passed from the
 * candidate that could best give to the one that could best take, pair by pair. They tell who is likely to contribute; the exact
 * path starts there.
 *
 * Source: Platt JC (1999) in Advances in Kernel Methods, 185-208 (minimal pairs), which fits here since each total is kept by a pair.
 * Cost: candidates a pair.
 */
export function nearContributions(
  problem: BoundedProblem,
  weight: number,
  from: Float64Array,
  pairs = 20 * from.length + 1000,
): Float64Array {
  const { coancestry, value, totals } = problem;
  const size = from.length;
  const x = from.slice();
  const slope = value.map((each) => -weight * each);
  x.forEach((share, k) => addRow(slope, coancestry, k * size, share));
  for (let turn = 0; turn < pairs; turn++) {
    let best: Pair = { giver: -1, taker: -1, gap: 1e-7 };
    for (let of = 0; of < totals.length; of++) {
      const pair = steepestPair(problem, x, slope, of);
      if (pair.gap > best.gap) best = pair;
    }
    const { giver, taker, gap } = best;
    if (giver < 0) break;
    const [own, other] = [giver * size, taker * size];
    const bend =
      coancestry[own + giver]! + coancestry[other + taker]! - 2 * coancestry[own + taker]!;
    const room = Math.min(x[giver]! - problem.least[giver]!, problem.most[taker]! - x[taker]!);
    const step = bend > 1e-12 ? Math.min(room, gap / bend) : room;
    x[giver] =
      step === x[giver]! - problem.least[giver]! ? problem.least[giver]! : x[giver]! - step;
    x[taker]! += step;
    addRow(slope, coancestry, other, step);
    addRow(slope, coancestry, own, -step);
  }
  return x;
}

function addRow(to: Float64Array, matrix: Float64Array, row: number, share: number): void {
  if (share === 0) return;
  for (let j = 0; j < to.length; j++) to[j]! += share * matrix[row + j]!;
}

interface Pair {
  readonly giver: number;
  readonly taker: number;
  readonly gap: number;
}

/** In one group, who would gain most by giving less and who by giving more. */
function steepestPair(
  { group, least, most }: BoundedProblem,
  x: Float64Array,
  slope: Float64Array,
  of: number,
): Pair {
  let [giver, taker] = [-1, -1];
  for (let k = 0; k < x.length; k++) {
    if (group[k] !== of) continue;
    if (x[k]! > least[k]! && (giver < 0 || slope[k]! > slope[giver]!)) giver = k;
    if (x[k]! < most[k]! && (taker < 0 || slope[k]! < slope[taker]!)) taker = k;
  }
  return { giver, taker, gap: giver < 0 || taker < 0 ? 0 : slope[giver]! - slope[taker]! };
}
