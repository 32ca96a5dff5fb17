import type { GridPoint } from './posterior.js';

/** Heritabilities to either side that a parabola is laid through. */
const REACH = 2;
/** Those whose probability lies further below the best, in ln, are left as they are. */
const FAR = 8;

/**
 * Takes out what the shares of further terms, gone over by boxes, leave of unevenness from one heritability to the next: ln of what the scores
 * say is replaced by the least-squares parabola through five neighbours (Savitzky A & Golay MJE 1964, Anal Chem 36:1627-1639; from memory). What
 * the prior says is not touched. Cost: points times heritabilities.
 *
 * @param points by rising heritability. @param cells all heritabilities gone over, rising, in even
 * steps. @param priors ln of the prior's density at each.
 */
export function evenedOut(
  points: readonly GridPoint[],
  cells: readonly number[],
  priors: ReadonlyMap<number, number>,
): GridPoint[] {
  const massOf = cells.map((h) => {
    const at = points.filter(({ heritability }) => heritability === h);
    const most = Math.max(...at.map(({ logDensity, logPrior }) => logDensity + logPrior));
    const sum = at.reduce((all, p) => all + Math.exp(p.logDensity + p.logPrior - most), 0);
    return at.length === 0 ? null : most + Math.log(sum);
  });
  const best = Math.max(...massOf.map((mass) => mass ?? -Infinity));
  const told = massOf.map((mass, k) =>
    mass === null || mass < best - FAR ? null : mass - priors.get(cells[k]!)!,
  );
  const shift = new Map(
    cells.map((h, k) => {
      const now = told[k] ?? null;
      const even = now === null ? null : parabolaAt(told, k);
      return [h, even === null || now === null ? 0 : even - now];
    }),
  );
  return points.map((point) => ({
    ...point,
    logDensity: point.logDensity + shift.get(point.heritability)!,
  }));
}

/** Value at `k` of the parabola through it and its neighbours; null with fewer than four of them. */
function parabolaAt(values: readonly (number | null)[], k: number): number | null {
  const near: { d: number; value: number }[] = [];
  for (let d = -REACH; d <= REACH; d++) {
    const value = values[k + d] ?? null;
    if (value !== null) near.push({ d, value });
  }
  if (near.length < 2 * REACH) return null;
  const sum = (of: (one: { d: number; value: number }) => number): number =>
    near.reduce((all, one) => all + of(one), 0);
  const [n, s1, s2] = [near.length, sum(({ d }) => d), sum(({ d }) => d ** 2)];
  const [s3, s4] = [sum(({ d }) => d ** 3), sum(({ d }) => d ** 4)];
  const [y0, y1, y2] = [0, 1, 2].map((power) => sum(({ d, value }) => d ** power * value)) as [
    number,
    number,
    number,
  ];
  // Cramer's rule for the constant of the normal equations.
  const minor = s2 * s4 - s3 * s3;
  const all = n * minor - s1 * (s1 * s4 - s2 * s3) + s2 * (s1 * s3 - s2 * s2);
  return (y0 * minor - s1 * (y1 * s4 - y2 * s3) + s2 * (y1 * s3 - y2 * s2)) / all;
}
