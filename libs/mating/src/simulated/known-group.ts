import type { BelievedLocus } from './line-belief.js';
import { genotypeCode, type LocusTable } from './locus-table.js';

/** What is believed of some fish at a locus, as numbers. */
export interface KnownGroup {
  readonly fish: readonly number[];
  /** Genotypes by `first * alleles + second`, outcome by outcome, one for each fish. */
  readonly codes: Uint16Array;
  /** Running sums of the outcomes' chances; `null` for draws, which are taken in turn. */
  readonly cumulative: Float64Array | null;
}

export function knownGroup(group: BelievedLocus['groups'][number], table: LocusTable): KnownGroup {
  const { fish } = group;
  if ('draws' in group) {
    const codeOf = group.genotypes.map((one) => genotypeCode(table, one));
    return {
      fish,
      codes: Uint16Array.from(group.draws, (place) => codeOf[place]!),
      cumulative: null,
    };
  }
  let sum = 0;
  return {
    fish,
    codes: Uint16Array.from(
      group.outcomes.flatMap(({ genotypes }) => genotypes.map((one) => genotypeCode(table, one))),
    ),
    cumulative: Float64Array.from(group.outcomes, ({ probability }) => (sum += probability)),
  };
}
