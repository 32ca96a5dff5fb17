import type { Records } from './reads.js';

/** A fish in use, as little of it as a list of many needs. */
export interface FishInUse {
  readonly id: string;
  readonly tag: string;
  readonly lineId: string | null;
}

/** All fish in use, of one line or of all, by tag. Cost: all of them. */
export const fishInUse = (records: Records, lineId: string | null): Promise<FishInUse[]> =>
  records.query(
    `SELECT u.id, u.tag, u.line_id AS "lineId" FROM fish_in_use u
     WHERE $1::uuid IS NULL OR u.line_id = $1 ORDER BY u.tag, u.id`,
    [lineId],
  );
