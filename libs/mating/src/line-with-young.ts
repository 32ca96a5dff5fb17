import { coancestry, meanCoancestryBetween } from '@linewright/kinship';
import type { Pedigree } from '@linewright/pedigree';

/** What the young of one pair do to the kinship of a line. */
export interface LineWithYoung {
  /** Mean coancestry of the line's fish, each with itself included. */
  readonly now: number;
  /** Mean coancestry of one young with the line's fish as they are. */
  readonly ofYoung: number;
  /** Mean coancestry of the line once so many young stand beside its fish. */
  readonly after: number;
}

/**
 * The mean coancestry of a line as it is, and with `keep` young of a pair beside its fish. A young's coancestry with another fish is the mean
 * of its parents'; with a full sib the mean of the four between the parents, each with itself included; with itself (1 + F) / 2 (Falconer &
 * Mackay 1996, chapter 5, from memory).
 *
 * @param line places of the line's fish in the pedigree, one at least. @param parents places of sire and dam, of the line or not.
 * @param keep 0 or more.
 * @throws KinshipError `KINSHIP_BAD_INDEX`.
 *
 * Cost: three products with the relationship matrix.
 */
export function lineWithYoung(
  pedigree: Pedigree,
  line: ArrayLike<number>,
  [sire, dam]: readonly [number, number],
  keep: number,
): LineWithYoung {
  const now = meanCoancestryBetween(pedigree, line, line) ?? NaN;
  const ofYoung = meanCoancestryBetween(pedigree, [sire, dam], line) ?? NaN;
  const inbreeding = coancestry(pedigree, sire, dam);
  const sibs = meanCoancestryBetween(pedigree, [sire, dam], [sire, dam]) ?? NaN;
  const self = (1 + inbreeding) / 2;
  const size = line.length;
  const sum = size ** 2 * now + 2 * size * keep * ofYoung + keep * (self + (keep - 1) * sibs);
  return { now, ofYoung, after: sum / (size + keep) ** 2 };
}
