import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { CONFIG } from '../../apps/api/src/config/config.token.js';
import { PASSWORD, recordsOf, type RunningApi, startApi } from './harness.js';
import { ownInstall } from './paired-installs.js';

const kept = async (api: RunningApi): Promise<{ signing: string; reading: string }> => {
  const [row] = (await (
    await recordsOf(api)
  ).query('SELECT signing_secret AS signing, reading_secret AS reading FROM share_state')) as {
    signing: string;
    reading: string;
  }[];
  return row!;
};

const secretFile = (api: RunningApi): string =>
  join(
    api.served.app.get<{ dataDir: string }>(CONFIG, { strict: false }).dataDir,
    'install-keys.secret',
  );

describe('the private keys of an install', () => {
  it('are sealed in the embedded database by a file beside it that only its account reads', async () => {
    const api = await startApi({ embedded: true });
    try {
      const before = await ownInstall(api);
      const { signing, reading } = await kept(api);
      expect([signing, reading].every((secret) => secret.startsWith('sealed-1.'))).toBe(true);
      expect(statSync(secretFile(api)).mode & 0o777).toBe(0o600);
      expect(await ownInstall(api)).toEqual(before);
      expect(readFileSync(secretFile(api), 'utf8')).toMatch(/^[\w-]{43}$/);
    } finally {
      await api.close();
    }
  });

  it('are sealed by INSTALL_SECRET under DATABASE_URL, those of before as well, and open by no other', async () => {
    const plain = await startApi();
    try {
      const before = await ownInstall(plain);
      expect((await kept(plain)).reading).toMatch(/^AGE-SECRET-KEY-1/);
      const environment = { DATABASE_URL: plain.served.databaseUrl };
      const at = async (secret: string, work: (api: RunningApi) => Promise<void>) => {
        const api = await startApi({
          ...{ signedIn: false, environment: { ...environment, INSTALL_SECRET: secret } },
        });
        try {
          await api.graphql('mutation ($p: String!) { signIn(password: $p) { signedIn } }', {
            p: PASSWORD,
          });
          await work(api);
        } finally {
          await api.close();
        }
      };
      const [first, other] = ['a'.repeat(40), 'b'.repeat(40)];
      await at(first, async (api) => {
        expect(await ownInstall(api)).toEqual(before);
        const { signing, reading } = await kept(plain);
        expect([signing, reading].every((secret) => secret.startsWith('sealed-1.'))).toBe(true);
      });
      await at(first, async (api) => expect(await ownInstall(api)).toEqual(before));
      await at(other, async (api) => {
        const { errors } = await api.send('{ ownInstall { code } }');
        expect(errors?.[0]?.message).toMatch(/cannot be opened/);
        const renewed = await api.graphql<{ renewInstallKeys: { words: string } }>(
          'mutation ($p: String!) { renewInstallKeys(password: $p) { words } }',
          { p: PASSWORD },
        );
        expect(renewed.renewInstallKeys.words).not.toBe(before.words);
      });
    } finally {
      await plain.close();
    }
  });
});
