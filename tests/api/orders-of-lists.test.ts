import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { recordsOf, type RunningApi, startApi } from './harness.js';

/** Lists by an order that is no column, and the index that holds it. */
const LISTS = [
  ['fishList', 'HATCH_DATE', 'DESC', 'fish_newest_first'],
  ['fishList', 'HATCH_DATE', 'ASC', 'fish_oldest_first'],
  ['fishList', 'TAG', 'ASC', 'fish_by_tag'],
  ['spawnList', 'SPAWNED_ON', 'DESC', 'spawn_by_day'],
  ['spawnList', 'SPAWNED_ON', 'ASC', 'spawn_by_day'],
] as const;

interface Asked {
  readonly text: string;
  readonly values: unknown[];
}

describe('the order of a list', () => {
  let api: RunningApi;
  beforeAll(async () => (api = await startApi()));
  afterAll(() => api.close());

  /** What was asked of the database for an answer. */
  const askedFor = async (question: string): Promise<Asked[]> => {
    const query = vi.spyOn(pg.Client.prototype, 'query');
    try {
      await api.graphql(question);
      return query.mock.calls.map((call) => {
        const [text, values] = call as unknown as [string, unknown[] | undefined];
        return { text: String(text), values: values ?? [] };
      });
    } finally {
      query.mockRestore();
    }
  };

  it.each(LISTS)(
    'of %s by %s, %s, is read from an index',
    async (list, field, direction, index) => {
      const sort = `sort: { field: ${field}, direction: ${direction} }`;
      const asked = await askedFor(`{ ${list}(first: 20, ${sort}) { edges { node { id } } } }`);
      const page = asked.find(({ text }) => text.includes('keyset_key'));
      const runner = (await recordsOf(api)).createQueryRunner();
      await runner.startTransaction();
      try {
        // So few rows are quicker sorted: told not to, it takes the index where the order is the same to the letter.
        for (const way of ['sort', 'seqscan', 'bitmapscan'])
          await runner.query(`SET LOCAL enable_${way} = off`);
        const plan = (await runner.query(`EXPLAIN ${page!.text}`, page!.values)) as object[];
        const told = plan.map((line) => Object.values(line)[0] as string).join('\n');
        expect(told).toMatch(new RegExp(`Index (Only )?Scan (Backward )?using ${index}`));
        expect(told).not.toMatch(/Sort Key/);
      } finally {
        await runner.rollbackTransaction();
        await runner.release();
      }
    },
  );

  it('is told without a count, unless that is asked for', async () => {
    const counts = (asked: Asked[]): Asked[] => asked.filter(({ text }) => /COUNT\(/i.test(text));
    const page = 'fishList(first: 20) { edges { node { id } }';
    expect(counts(await askedFor(`{ ${page} } }`))).toEqual([]);
    expect(counts(await askedFor(`{ ${page} totalCount } }`))).toHaveLength(1);
  });
});
