import type { Equations } from './equations.js';
import type { VarianceParameter } from './parameters.js';

/**
 * Covariances of which no score tells: two traits that never stand in one row (the residual's), or that no level of an independent term was
 * scored for (a scorer of each). Cost: rows a covariance.
 */
export function neverMet(
  equations: Equations,
  parameters: readonly VarianceParameter[],
): readonly boolean[] {
  const { traits, random, rows } = equations.model;
  const isScored = (trait: number, row: number): boolean =>
    !Number.isNaN(traits[trait]!.values[row]);
  return parameters.map(({ term, i, j }) => {
    if (i === j) return false;
    const all = Array.from({ length: rows }, (_, row) => row);
    if (term < 0) return !all.some((row) => isScored(i, row) && isScored(j, row));
    const { slots, inverse } = random[term]!;
    // Levels that are related tell of each other.
    if (inverse !== undefined) return false;
    const levelsOf = (slot: number): Set<number> => {
      const { trait, level } = slots[slot]!;
      return new Set(
        all.flatMap((row) => (isScored(trait, row) && level[row]! >= 0 ? [level[row]!] : [])),
      );
    };
    const [one, other] = [levelsOf(i), levelsOf(j)];
    return ![...one].some((level) => other.has(level));
  });
}
