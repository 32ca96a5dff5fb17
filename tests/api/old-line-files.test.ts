import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { recordsOf, type RunningApi, startApi } from './harness.js';
import { lineJson, sent, sentText } from './line-files.js';

interface OldFile {
  readonly version: number;
  readonly lineId: string;
  readonly records: Readonly<Record<string, readonly { readonly id: string }[]>>;
}
interface Report {
  readonly added: number;
  readonly updated: number;
  readonly conflicts: number;
  readonly maker: { readonly standing: string };
}

const VERSIONS = [1, 2, 3, 4];
const bytesOf = (version: number): Buffer =>
  readFileSync(new URL(`./old-line-files/version-${version}.json`, import.meta.url));

describe.each(VERSIONS)('a file of version %i', (version) => {
  let api: RunningApi;
  const bytes = bytesOf(version);
  const old = JSON.parse(bytes.toString()) as OldFile;

  beforeAll(async () => {
    api = await startApi();
  });
  afterAll(() => api.close());

  const take = async (file: string): Promise<Report> => {
    const { acceptShare } = await api.graphql<{ acceptShare: Report }>(
      `mutation ($file: ID!) { acceptShare(file: $file) { added updated conflicts maker { standing } } }`,
      { file },
    );
    return acceptShare;
  };

  it('is what its name says', () => {
    expect(old.version).toBe(version);
    expect(old.records['fish']!.length).toBeGreaterThan(2);
  });

  it('is taken in with every record, and a second time changes nothing', async () => {
    const ids = Object.values(old.records).flatMap((records) => records.map(({ id }) => id));
    const unsigned = { updated: 0, conflicts: 0, maker: { standing: 'UNSIGNED' } };
    expect(await take(await sent(api, bytes))).toEqual({ ...unsigned, added: ids.length });
    expect(await take(await sent(api, bytes))).toEqual({ ...unsigned, added: 0 });
    const kept = (await (
      await recordsOf(api)
    ).query('SELECT record_id AS id FROM record_history WHERE record_id = ANY($1::uuid[])', [
      ids,
    ])) as { id: string }[];
    expect(new Set(kept.map(({ id }) => id)).size).toBe(ids.length);
  });

  it('goes out again in today’s form, and comes back to one who has only the old file without a question', async () => {
    const other = await startApi();
    try {
      const accept = async (file: string): Promise<Report> =>
        (
          await other.graphql<{ acceptShare: Report }>(
            `mutation ($file: ID!) { acceptShare(file: $file) { added updated conflicts maker { standing } } }`,
            { file },
          )
        ).acceptShare;
      await accept(await sent(other, bytes));
      const today = await lineJson(api, old.lineId);
      expect(await accept(await sentText(other, today))).toMatchObject({
        ...{ added: 0, updated: 0, conflicts: 0 },
      });
    } finally {
      await other.close();
    }
  });
});
