import type { NamedFishModel } from '../shapes/named-fish.model.js';

/** The largest first; of equals, which the pedigree holds in the order of their random ids, by tag. */
export const largestFirst = <Row>(
  rows: readonly Row[],
  amount: (row: Row) => number,
  fish: (row: Row) => NamedFishModel,
): Row[] =>
  rows.toSorted((a, b) => amount(b) - amount(a) || fish(a).tag.localeCompare(fish(b).tag, 'en'));
