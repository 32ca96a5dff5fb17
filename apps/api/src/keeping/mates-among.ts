import type { CandidateRow } from '../stock/candidate-rows.js';
import type { KeepingMates } from './keeping.enums.js';

/** Fish that stand for the line at most: the youngest of them. */
const MOST_MATES = 200;

/** The fish that the young of a brood are reckoned with. */
export interface Mates<Row = CandidateRow> {
  readonly are: KeepingMates;
  readonly list: readonly Row[];
  /** How many there are, those left out among them. */
  readonly of: number;
}

/**
 * Keepers of other broods; where there are none, others in use; where there are none either, the brood itself. Of more than 200 the
 * youngest.
 */
export const matesAmong = <
  Row extends Pick<CandidateRow, 'id' | 'spawnId' | 'disposition' | 'hatchedOn'>,
>(
  rows: readonly Row[],
  spawnId: string,
): Mates<Row> => {
  const others = rows.filter((row) => row.spawnId !== spawnId);
  const keepers = others.filter(({ disposition }) => disposition === 'keeper');
  const youngest = (are: KeepingMates, list: readonly Row[]): Mates<Row> => ({
    are,
    list: list
      .toSorted(
        (a, b) => (b.hatchedOn ?? '').localeCompare(a.hatchedOn ?? '') || a.id.localeCompare(b.id),
      )
      .slice(0, MOST_MATES),
    of: list.length,
  });
  if (keepers.length > 0) return youngest('keepers', keepers);
  if (others.length > 0) return youngest('in-use', others);
  return youngest('brood', rows);
};
