import { eliminationOrder, type Elimination } from './elimination-order.js';
import type { ReducedNetwork } from './reduced-network.js';

/** Entries of all tables together that memory is spent on: 256 MB. */
const TOTAL_LIMIT = 2 ** 25;

/** The better of two greedy orders, or null when either needs a table beyond the limit. */
export function bestOrder(
  reduced: ReducedNetwork,
  limit: number,
): { found: Elimination | null; needed: number | null } {
  const small = eliminationOrder(reduced.graph, { rule: 'fewest-new-ties', limit });
  if (small && small.largest <= 3 ** 8) return { found: small, needed: small.largest };
  const other = eliminationOrder(reduced.graph, {
    rule: 'fewest-states',
    limit: small?.largest ?? limit,
  });
  const found = small && other ? (small.total <= other.total ? small : other) : (small ?? other);
  return found && found.total <= TOTAL_LIMIT
    ? { found, needed: found.largest }
    : { found: null, needed: found?.largest ?? null };
}
