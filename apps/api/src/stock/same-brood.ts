import type { EntityManager } from 'typeorm';
import { oneAtATime } from '../database/one-at-a-time.js';
import { RequestError } from '../errors/request-error.js';

/** A brood as it would be written. */
export interface BroodToRecord {
  readonly id: string;
  readonly sireId: string | null;
  readonly damId: string | null;
  readonly spawnedOn: string | null;
  readonly hatchDate: string | null;
}

/** Whether a correction makes a spawn that of another pair or day: other corrections are not asked about. */
export const isOtherBrood = (before: BroodToRecord, after: BroodToRecord): boolean =>
  before.sireId !== after.sireId ||
  before.damId !== after.damId ||
  before.spawnedOn !== after.spawnedOn ||
  before.hatchDate !== after.hatchDate;

/** Of the same pair and day; without any day, one that is still under way. */
const THERE = `
  SELECT s.tag, s.id, coalesce(s.spawned_on, s.hatch_date)::text AS day FROM standing_spawn s
  WHERE s.sire_id = $1 AND s.dam_id = $2 AND s.id <> $3
    AND (s.spawned_on = $4::date OR s.hatch_date = $5::date
      OR ($4::date IS NULL AND $5::date IS NULL AND s.spawned_on IS NULL AND s.hatch_date IS NULL
        AND EXISTS (SELECT 1 FROM spawn_under_way u WHERE u.id = s.id)))
  ORDER BY s.tag, s.id LIMIT 1`;

/**
 * Asks before one brood is recorded twice: holds the pair until the transaction ends, so that of two senders at once the
 * second sees what the first one wrote.
 * @throws RequestError `SPAWN_RECORDED` on `confirmed`, with `spawnId` and `tag` of the spawn that is there.
 */
export const expectNotRecordedYet = async (
  manager: EntityManager,
  brood: BroodToRecord,
): Promise<void> => {
  const { id, sireId, damId, spawnedOn, hatchDate } = brood;
  if (sireId === null || damId === null) return;
  await oneAtATime(manager, `spawn of ${sireId.toLowerCase()} ${damId.toLowerCase()}`);
  const [there] = (await manager.query(THERE, [sireId, damId, id, spawnedOn, hatchDate])) as {
    id: string;
    tag: string;
    day: string | null;
  }[];
  if (there === undefined) return;
  const of =
    there.day === null ? 'of this pair, still without a day,' : `of this pair, ${there.day},`;
  const message = `Spawn ${there.tag} ${of} is recorded already. Open that one, or confirm that this is another spawn.`;
  throw new RequestError('SPAWN_RECORDED', message, {
    fields: [{ field: 'confirmed', message }],
    spawnId: there.id,
    tag: there.tag,
  });
};
