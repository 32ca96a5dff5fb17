import { createCipheriv, createDecipheriv, hkdfSync, randomBytes } from 'node:crypto';
import { mkdir, open, readFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { type Config, ConfigError } from '../config/config.js';

/** Beside the records, never in them: whoever has a copy of the database alone has no keys. */
const FILE = 'install-keys.secret';
const SEALED = 'sealed-1.';
const IV = 12;
const TAG = 16;

/** Seals the private keys of this install for the database. */
export interface KeySeal {
  seal(secret: string): string;
  /** @throws Error where it was sealed with another key, or altered */
  open(sealed: string): string;
}

export const isSealed = (kept: string): boolean => kept.startsWith(SEALED);

/** AES-256-GCM (NIST SP 800-38D) with a key from HKDF-SHA-256 (RFC 5869). */
export const sealWith = (secret: Uint8Array | string): KeySeal => {
  const key = Buffer.from(hkdfSync('sha256', secret, '', 'linewright install keys', 32));
  return {
    seal(text) {
      const iv = randomBytes(IV);
      const cipher = createCipheriv('aes-256-gcm', key, iv);
      const sealed = Buffer.concat([cipher.update(text, 'utf8'), cipher.final()]);
      return `${SEALED}${Buffer.concat([iv, cipher.getAuthTag(), sealed]).toString('base64url')}`;
    },
    open(sealed) {
      const bytes = Buffer.from(sealed.slice(SEALED.length), 'base64url');
      const cipher = createDecipheriv('aes-256-gcm', key, bytes.subarray(0, IV), {
        authTagLength: TAG,
      });
      cipher.setAuthTag(bytes.subarray(IV, IV + TAG));
      return Buffer.concat([cipher.update(bytes.subarray(IV + TAG)), cipher.final()]).toString(
        'utf8',
      );
    },
  };
};

const readSecret = (path: string): Promise<Buffer | null> =>
  readFile(path).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return null;
    throw new ConfigError(
      'DATA_DIR',
      `${path} cannot be read (${error.code ?? String(error)}): it opens the keys of this install. Let this account read it.`,
    );
  });

/** The secret in the data folder, made when it is first needed; of two processes that make it, one does. */
const secretIn = async (dataDir: string): Promise<Buffer> => {
  const path = join(dataDir, FILE);
  const found = await readSecret(path);
  if (found !== null) return found;
  await mkdir(dirname(path), { recursive: true });
  try {
    const file = await open(path, 'wx', 0o600);
    try {
      await file.writeFile(randomBytes(32).toString('base64url'));
      await file.sync();
    } finally {
      await file.close();
    }
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
  }
  return (await readSecret(path))!;
};

/**
 * By what the keys of this install are sealed: a file in the data folder for the embedded database; `INSTALL_SECRET` under `DATABASE_URL`,
 * where several processes may share one database and no folder. `null` there without it: the keys stand in the database as they are.
 */
export const sealFor = async ({
  databaseUrl,
  dataDir,
  installSecret,
}: Pick<Config, 'databaseUrl' | 'dataDir' | 'installSecret'>): Promise<KeySeal | null> => {
  if (installSecret !== undefined) return sealWith(installSecret);
  return databaseUrl === undefined ? sealWith(await secretIn(dataDir)) : null;
};
