import { Inject, Injectable, Logger } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { type Config } from '../config/config.js';
import { CONFIG } from '../config/config.token.js';
import { RequestError } from '../errors/request-error.js';
import { type InstallKeys, keysFrom, makeKeys } from './install-keys.js';
import { isSealed, type KeySeal, sealFor } from './key-seal.js';

interface KeptRow {
  readonly signing: string | null;
  readonly reading: string | null;
}

/** How the keys of each open database are sealed. */
const seals = new WeakMap<DataSource, () => Promise<KeySeal | null>>();

/** Has the keys of this install sealed in the database, and says where they are not. */
@Injectable()
export class SealedKeys {
  constructor(dataSource: DataSource, @Inject(CONFIG) config: Config) {
    let seal: Promise<KeySeal | null> | null = null;
    const log = new Logger('keys');
    seals.set(dataSource, () => {
      seal ??= sealFor(config).then((found) => {
        if (found === null)
          log.warn(
            'The private keys of this install stand in the database as they are: whoever reads it can sign in your name. Set INSTALL_SECRET to a long random text, the same for every process.',
          );
        return found;
      });
      return seal;
    });
  }
}

const opened = (kept: string, seal: KeySeal | null): string => {
  if (!isSealed(kept)) return kept;
  try {
    if (seal !== null) return seal.open(kept);
  } catch {
    // Another secret, told below.
  }
  throw new RequestError(
    'SHARE_INVALID',
    'The keys of this install cannot be opened: the secret that they were sealed with is another one or missing. Put the file install-keys.secret back into the data folder from where it was copied, or give the same INSTALL_SECRET as before. Where it is lost, make new keys under “Partners”, and pair with your partners again.',
  );
};

const keep = async (
  manager: EntityManager,
  { signingSecret, readingSecret }: InstallKeys,
  seal: KeySeal | null,
): Promise<void> => {
  const sealed = (secret: string): string => (seal === null ? secret : seal.seal(secret));
  await manager.query(
    `UPDATE share_state SET signing_secret = $1, reading_secret = $2 WHERE id = 1`,
    [sealed(signingSecret), sealed(readingSecret)],
  );
};

const makeNew = async (manager: EntityManager, seal: KeySeal | null): Promise<InstallKeys> => {
  const keys = await makeKeys();
  await manager.query(`UPDATE share_state SET install_id = $1, changes = 0 WHERE id = 1`, [
    keys.install,
  ]);
  await keep(manager, keys, seal);
  return keys;
};

const held = async (manager: EntityManager): Promise<KeptRow | undefined> => {
  await manager.query(`INSERT INTO share_state (id) VALUES (1) ON CONFLICT DO NOTHING`);
  const [row] = (await manager.query(
    `SELECT signing_secret AS signing, reading_secret AS reading FROM share_state WHERE id = 1 FOR UPDATE`,
  )) as KeptRow[];
  return row;
};

const sealOf = async (manager: EntityManager): Promise<KeySeal | null> =>
  (await seals.get(manager.connection)?.()) ?? null;

/**
 * The keys of this install, made when they are first needed; the row is held until the transaction ends. Those that were kept as they are
 * before they were sealed, are sealed now.
 *
 * @throws RequestError `SHARE_INVALID` where they cannot be opened
 */
export const ownKeys = async (manager: EntityManager): Promise<InstallKeys> => {
  const row = await held(manager);
  const seal = await sealOf(manager);
  if (row?.signing == null || row.reading === null) return makeNew(manager, seal);
  const keys = await keysFrom(opened(row.signing, seal), opened(row.reading, seal));
  if (seal !== null && !isSealed(row.signing)) await keep(manager, keys, seal);
  return keys;
};

/** New keys in place of those that are lost, or that another may have: this install is another one to its partners from then on. */
export const renewKeys = async (manager: EntityManager): Promise<InstallKeys> => {
  await held(manager);
  return makeNew(manager, await sealOf(manager));
};
