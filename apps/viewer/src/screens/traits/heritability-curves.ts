import { fishSizePrior, flatPrior, type HeritabilityPrior } from '@linewright/merit';
import type { HeritabilityCell, LikelyPoint } from '../../drawings/index.js';
import type { PriorName } from '../../wording/merit-model-words.js';

const priors: Record<PriorName, HeritabilityPrior> = {
  FISH_SIZE: fishSizePrior,
  FLAT: flatPrior,
};

/** Points of a prior over 0 to 1. */
const POINTS = 50;

/** A curve with its prior beside it, both in chances for a cell of the curve's grid, which may hold a part of 0 to 1 only. */
export function curvesOf(
  curve: readonly { readonly heritability: number; readonly probability: number }[],
  name: PriorName,
): { cells: HeritabilityCell[]; before: LikelyPoint[] } {
  const { density } = priors[name];
  const middles = Array.from({ length: POINTS }, (_, k) => (k + 0.5) / POINTS);
  const all = middles.reduce((sum, h) => sum + density(h), 0) / POINTS;
  const sorted = curve.map(({ heritability }) => heritability).sort((a, b) => a - b);
  const width = sorted.length < 2 ? 1 : sorted[1]! - sorted[0]!;
  const likely = (h: number): number => (density(h) / all) * width;
  return {
    cells: curve.map((cell) => ({ ...cell, before: likely(cell.heritability) })),
    before: middles.map((heritability) => ({ heritability, likely: likely(heritability) })),
  };
}
