import { existsSync, mkdtempSync, readdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { writePairingCode } from '../../apps/api/src/sharing/partners/pairing-code.js';
import { newRecords } from '../new-records.js';
import { startApi } from './harness.js';
import { otherKeys } from './line-files.js';
import { grant, pair, setFolder } from './paired-installs.js';

describe('the folder of a partner', () => {
  it('is looked into by itself, as often as was said', { timeout: 300_000 }, async () => {
    const api = await startApi({ environment: { EXCHANGE_MINUTES: '1' } });
    try {
      const keys = await otherKeys();
      const code = writePairingCode({ ...keys, personId: crypto.randomUUID(), name: 'Runa' });
      const partner = await pair(api, code);
      await api.graphql('mutation ($id: ID!) { confirmInstallWords(installId: $id) { id } }', {
        id: partner.id,
      });
      const line = await newRecords(api).createLine({ code: 'R', name: 'Red' });
      await grant(api, partner.person.id, line);
      const folder = mkdtempSync(join(tmpdir(), 'linewright-exchange-'));
      expect((await setFolder(api, partner.id, folder)).errors).toBe(undefined);
      const given = (): string[] =>
        existsSync(folder)
          ? readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) =>
              name.endsWith('.age'),
            )
          : [];
      // Nobody asks for it: pg-boss does.
      await expect.poll(given, { timeout: 240_000, interval: 500 }).toHaveLength(1);
      const { partnerInstalls } = await api.graphql<{
        partnerInstalls: { everyMinutes: number; lines: { sentAt: string | null }[] }[];
      }>('{ partnerInstalls { everyMinutes lines { sentAt } } }');
      expect(partnerInstalls[0]).toMatchObject({ everyMinutes: 1 });
      expect(partnerInstalls[0]?.lines[0]?.sentAt).not.toBeNull();
    } finally {
      await api.close();
    }
  });
});
