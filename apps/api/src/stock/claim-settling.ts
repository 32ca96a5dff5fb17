import { type EntityManager, In } from 'typeorm';
import type { Done } from './hand-over-moves.js';
import { freeTag } from './hand-over-settling.js';
import type { RecordStore } from './record-store.js';
import { fishRecord } from './record-types.js';
import type { FishRow } from './rows/fish.entity.js';
import { FishClaimRow } from './rows/fish-claim.entity.js';
import { handBareRecord, uniteFish } from './unite-fish.js';

/** Confirmed where the bare record is kept: here, where the claimant is, both records become one as well, once. */
const follow = async (
  m: EntityManager,
  records: RecordStore,
  row: FishClaimRow,
  done: Done,
): Promise<void> => {
  const bare = await records.lock(m, fishRecord, row.fishId);
  if (row.asFishId === null) {
    const isTheirs = bare.withdrawnAt === null && bare.personId === row.toId;
    if (isTheirs)
      await handBareRecord(m, records, bare, row.byId, done, await tagFor(m, row, bare));
  } else {
    const own = await records.lock(m, fishRecord, row.asFishId);
    if (own.withdrawnAt === null) await uniteFish(m, records, { bare, own }, done);
  }
  await m.update(FishClaimRow, { id: row.id }, { applied: true });
};

const tagFor = (m: EntityManager, { byId }: FishClaimRow, bare: FishRow): Promise<string> =>
  freeTag(m, byId, bare, bare.tag);

/**
 * Does to the fish what claims say that came in with a line: the install where the bare record is kept says that it is so, the claimant's
 * follows. In the caller's transaction; in any order, and any number of times with the same outcome.
 *
 * @param ids claims that are new or changed
 * @param here whose install this is
 * @returns whether anything was done
 * @throws RequestError `VALIDATION` where a fish would be its own ancestor by what this install knows
 */
export const settleClaims = async (
  m: EntityManager,
  records: RecordStore,
  ids: readonly string[],
  here: string | null,
  done: Done,
): Promise<boolean> => {
  const rows = await m.findBy(FishClaimRow, { id: In([...ids]) });
  const confirmed = rows.filter(
    ({ answer, applied, byId }) => answer === 'confirmed' && !applied && byId === here,
  );
  for (const row of confirmed) await follow(m, records, row, done);
  return confirmed.length > 0;
};
