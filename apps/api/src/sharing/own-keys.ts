import type { EntityManager } from 'typeorm';
import { type InstallKeys, keysFrom, makeKeys } from './install-keys.js';

interface KeptRow {
  readonly signing: string | null;
  readonly reading: string | null;
}

/** The keys of this install, made when they are first needed; the row is held until the transaction ends. */
export const ownKeys = async (manager: EntityManager): Promise<InstallKeys> => {
  await manager.query(`INSERT INTO share_state (id) VALUES (1) ON CONFLICT DO NOTHING`);
  const [row] = (await manager.query(
    `SELECT signing_secret AS signing, reading_secret AS reading FROM share_state WHERE id = 1 FOR UPDATE`,
  )) as KeptRow[];
  if (row?.signing != null && row.reading !== null) return keysFrom(row.signing, row.reading);
  const keys = await makeKeys();
  await manager.query(
    `UPDATE share_state SET install_id = $1, signing_secret = $2, reading_secret = $3, changes = 0 WHERE id = 1`,
    [keys.install, keys.signingSecret, keys.readingSecret],
  );
  return keys;
};
