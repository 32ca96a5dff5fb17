import type { PairProblem } from './pair-problem.js';

/** One pair of a set. */
export interface SetPair {
  /** Place among the males, and among the females. */
  readonly male: number;
  readonly female: number;
  readonly worth: number;
  /** F of the brood. */
  readonly inbreeding: number;
}

/** What pairs come to together, one brood each. */
export interface SetFigures {
  /** By place of the male, then of the female. */
  readonly pairs: readonly SetPair[];
  /** Sum of the pairs' worth. */
  readonly worth: number;
  /** Mean coancestry of those who give, themselves included, each by its broods: c'Kc. */
  readonly coancestry: number;
  /** Mean F of the broods. */
  readonly inbreeding: number;
}

type Stock = Pick<PairProblem, 'males' | 'females' | 'worth' | 'coancestry'>;

/**
 * Figures of pairs, whoever chose them: [place of the male, place of the female].
 *
 * @param standing pairs that were decided before. Their fish give too and are in the coancestry; worth and F are those of the chosen alone.
 */
export function setFigures(
  { males, females, worth, coancestry }: Stock,
  chosen: readonly (readonly [number, number])[],
  standing: readonly (readonly [number, number])[] = [],
): SetFigures {
  const size = males.length + females.length;
  const pairs = chosen
    .toSorted(([a, b], [c, d]) => a - c || b - d)
    .map(([male, female]): SetPair => ({
      male,
      female,
      worth: worth[male * females.length + female]!,
      inbreeding: coancestry[male * size + males.length + female]!,
    }));
  const share = new Float64Array(size);
  const all = [...chosen, ...standing];
  for (const [male, female] of all)
    for (const fish of [male, males.length + female]) share[fish]! += 0.5 / all.length;
  const mean = (of: (pair: SetPair) => number): number =>
    pairs.reduce((sum, pair) => sum + of(pair), 0) / pairs.length;
  return {
    pairs,
    worth: pairs.reduce((sum, pair) => sum + pair.worth, 0),
    coancestry: meanCoancestry(coancestry, share),
    inbreeding: mean(({ inbreeding }) => inbreeding),
  };
}

/** c'Kc. */
export function meanCoancestry(coancestry: Float64Array, share: Float64Array): number {
  const size = share.length;
  let sum = 0;
  for (let i = 0; i < size; i++) {
    if (share[i] === 0) continue;
    for (let j = 0; j < size; j++) sum += share[i]! * share[j]! * coancestry[i * size + j]!;
  }
  return sum;
}

/** Mean coancestry of the candidates as they are: males together one half, females the other. */
export function presentCoancestry({ males, females, coancestry }: Stock): number {
  const share = Float64Array.from({ length: males.length + females.length }, (_, k) =>
    k < males.length ? 0.5 / males.length : 0.5 / females.length,
  );
  return meanCoancestry(coancestry, share);
}
