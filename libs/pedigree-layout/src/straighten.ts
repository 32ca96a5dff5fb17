import type { Families } from './families.js';
import type { Rows } from './rows.js';
import type { Spacing } from './coordinates.js';

/**
 * Long lines that pass through rows of fish get one place across for their whole length where the gaps of all those rows allow it:
 * straight below the fish they come from if possible. Places of fish do not change. O(passing vertices).
 */
export function straightenLines(
  rows: Rows,
  families: Families,
  across: Float64Array,
  spacing: Spacing,
): void {
  const chains = new Map<number, number[]>();
  rows.vertices.forEach((vertex, v) => {
    if (vertex.kind !== 'pass' || vertex.row % 2 === 1) return;
    chains.set(vertex.ref, [...(chains.get(vertex.ref) ?? []), v]);
  });
  const place = new Int32Array(rows.vertices.length);
  for (const row of rows.order) row.forEach((v, i) => (place[v] = i));
  const half = (v: number): number =>
    rows.vertices[v]!.kind === 'node' ? spacing.nodeSize / 2 : 0;
  for (const [node, chain] of chains) {
    let low = Number.NEGATIVE_INFINITY;
    let high = Number.POSITIVE_INFINITY;
    let sum = 0;
    for (const v of chain) {
      const row = rows.order[rows.vertices[v]!.row]!;
      const left = row[place[v]! - 1];
      const right = row[place[v]! + 1];
      if (left !== undefined) low = Math.max(low, across[left]! + half(left) + spacing.lineGap);
      if (right !== undefined)
        high = Math.min(high, across[right]! - half(right) - spacing.lineGap);
      sum += across[v]!;
    }
    if (low > high) continue;
    const source = across[rows.nodeVertex[node]!]!;
    const mean = sum / chain.length;
    const wanted = source >= low && source <= high ? source : mean;
    const chosen = Math.min(high, Math.max(low, wanted));
    for (const v of chain) across[v] = chosen;
  }
}
