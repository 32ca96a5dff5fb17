import {
  compareFractions,
  formatFraction,
  fraction,
  toFraction,
  type Fraction,
} from '../fraction.js';
import { HeredityError } from '../heredity-error.js';
import type { LocusId } from '../locus.js';
import type { Linkage } from './cross-types.js';

/** Loci of one chromosome in order; `sire[i]` and `dam[i]` are the recombination fractions between locus i and i + 1. */
export interface LinkageBlock {
  readonly loci: readonly LocusId[];
  readonly sire: readonly Fraction[];
  readonly dam: readonly Fraction[];
}

const ONE_HALF = fraction(1, 2);

function readRecombination(linkage: Linkage): { sire: Fraction; dam: Fraction } {
  const given = linkage.recombination;
  const pair = typeof given === 'object' && 'sire' in given ? given : { sire: given, dam: given };
  const read = (input: typeof pair.sire): Fraction => {
    const value = toFraction(input);
    if (value.numerator < 0n || compareFractions(value, ONE_HALF) > 0) {
      throw new HeredityError(
        'RECOMBINATION_OUT_OF_RANGE',
        `The recombination fraction between ${linkage.loci.join(' and ')} is ${formatFraction(value)}; it must lie between 0 and 1/2 (1/2 is unlinked).`,
        { value: formatFraction(value) },
      );
    }
    return value;
  };
  return { sire: read(pair.sire), dam: read(pair.dam) };
}

interface Neighbour {
  readonly locus: LocusId;
  readonly sire: Fraction;
  readonly dam: Fraction;
}

function neighbourLists(
  loci: readonly LocusId[],
  linkages: readonly Linkage[],
): Map<LocusId, Neighbour[]> {
  const lists = new Map<LocusId, Neighbour[]>(loci.map((id) => [id, []]));
  for (const linkage of linkages) {
    const [a, b] = linkage.loci;
    const ofA = lists.get(a);
    const ofB = lists.get(b);
    if (!ofA || !ofB || a === b) {
      throw new HeredityError(
        'ARGUMENT_INVALID',
        `Linkage names ${a} and ${b}; both must be different loci of this cross.`,
        { loci: [a, b] },
      );
    }
    const between = readRecombination(linkage);
    ofA.push({ locus: b, ...between });
    ofB.push({ locus: a, ...between });
  }
  return lists;
}

/**
 * Sorts loci into chromosomes. Linked loci must form rows (each with at most two neighbours, no ring); recombination in
 * different intervals is taken as independent (no interference, Haldane 1919).
 * @throws HeredityError `RECOMBINATION_OUT_OF_RANGE`, `ARGUMENT_INVALID`.
 */
export function linkageBlocks(
  loci: readonly LocusId[],
  linkages: readonly Linkage[],
): LinkageBlock[] {
  const lists = neighbourLists(loci, linkages);
  const done = new Set<LocusId>();
  const blocks: LinkageBlock[] = [];
  const ends = loci.filter((id) => (lists.get(id)?.length ?? 0) < 2);
  for (const start of ends) {
    if (done.has(start)) continue;
    const row: LocusId[] = [start];
    const sire: Fraction[] = [];
    const dam: Fraction[] = [];
    done.add(start);
    for (let at = start; ;) {
      const next = lists.get(at)?.find((one) => !done.has(one.locus));
      if (!next) break;
      row.push(next.locus);
      sire.push(next.sire);
      dam.push(next.dam);
      done.add(next.locus);
      at = next.locus;
    }
    blocks.push({ loci: row, sire, dam });
  }
  if (done.size < loci.length || [...lists.values()].some((list) => list.length > 2)) {
    throw new HeredityError(
      'ARGUMENT_INVALID',
      'Linked loci must lie in a row: give the recombination fraction between neighbours only.',
      { loci },
    );
  }
  return blocks;
}
