import { placeHereSql } from './fish-place.js';
import type { Records } from './reads.js';

/** Fish in use here that a fish could be tried with, of one line or of all, by tag. */
export const partnersHere = (
  records: Records,
  fishId: string,
  lineId: string | null,
): Promise<{ id: string; tag: string }[]> =>
  records.query(
    `SELECT f.id, f.tag FROM fish_in_use f JOIN fish me ON me.id = $1
     WHERE f.id <> me.id AND ${placeHereSql('f')}
       AND f.sex IN ('male', 'female') AND (me.sex NOT IN ('male', 'female') OR f.sex <> me.sex)
       AND ($2::uuid IS NULL OR f.line_id = $2)
     ORDER BY f.tag, f.id`,
    [fishId, lineId],
  );
