import type { Records } from './reads.js';

/** For every spawn and vessel with readings: the newest, how many there are, and the spawn's tag. */
export const newestReadings = (
  records: Records,
  personId: string,
): Promise<{ id: string; tag: string | null; count: number }[]> =>
  records.query(
    `SELECT DISTINCT ON (w.spawn_id, w.vessel) w.id, s.tag,
       count(*) OVER (PARTITION BY w.spawn_id, w.vessel)::int AS count
     FROM standing_water_reading w LEFT JOIN spawn s ON s.id = w.spawn_id
     WHERE w.keeper_id = $1
     ORDER BY w.spawn_id, w.vessel, w.taken_at DESC, w.id`,
    [personId],
  );
