import type { Records } from './reads.js';

/**
 * Another text after every change that a line's file could tell: of records, which the history tells; of versions; and of names of people.
 * Cost: a count over the history.
 */
export const sharedState = async (records: Records): Promise<string> => {
  const [row] = (await records.query(
    `SELECT concat_ws(' ',
       (SELECT count(*) || ' ' || coalesce(max(sequence), 0) FROM record_history),
       (SELECT changes || ' ' || stampings FROM share_state WHERE id = 1),
       (SELECT md5(string_agg(id::text || name, ',' ORDER BY id)) FROM person)) AS state`,
  )) as { state: string }[];
  return row?.state ?? '';
};
