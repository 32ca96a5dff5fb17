import type { EntityManager } from 'typeorm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { takeBackState, withdrawImport } from '../../apps/api/src/stock/take-back.js';
import { recordsOf, type RunningApi, startApi } from './harness.js';

interface PlanNode {
  readonly 'Actual Rows': number;
  readonly 'Actual Loops': number;
  readonly 'Rows Removed by Filter'?: number;
  readonly 'Rows Removed by Join Filter'?: number;
  readonly Plans?: readonly PlanNode[];
}

/** Rows that a plan looked at, those it threw away too: what it worked, on any machine. */
const rowsLookedAt = (node: PlanNode): number =>
  node['Actual Loops'] *
    (node['Actual Rows'] +
      (node['Rows Removed by Filter'] ?? 0) +
      (node['Rows Removed by Join Filter'] ?? 0)) +
  (node.Plans ?? []).reduce((sum, inner) => sum + rowsLookedAt(inner), 0);

const FISH = 1_900;

describe('what taking back a large import costs', () => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi();
  });
  afterAll(() => api.close());

  it('grows with its records and not with their square, before the server has figures of the new rows', async () => {
    const db = await recordsOf(api);
    const rows = Array.from({ length: FISH - 2 }, (_, i) => `Y${i},S,D,2024-06-01,RED,${i % 50}`);
    const text = ['tag,sire,dam,hatch_date,line,length', 'S,,,,,', 'D,,,,,', ...rows].join('\n');
    await api.graphql(
      'mutation ($text: String!) { confirmImport(fileName: "many.csv", text: $text, columns: []) { fish } }',
      { text },
    );
    const [{ id } = { id: '' }]: { id: string }[] = await db.query('SELECT id FROM past_import');
    let looked = 0;
    const runner = db.createQueryRunner();
    await runner.startTransaction();
    const query = async (sql: string, parameters?: unknown[]): Promise<unknown> => {
      await runner.query('SAVEPOINT before_plan');
      const [told] = (await runner.query(
        `EXPLAIN (ANALYZE, TIMING OFF, FORMAT JSON) ${sql}`,
        parameters,
      )) as { 'QUERY PLAN': [{ Plan: PlanNode }] }[];
      looked += rowsLookedAt(told!['QUERY PLAN'][0].Plan);
      await runner.query('ROLLBACK TO SAVEPOINT before_plan');
      return runner.query(sql, parameters);
    };
    try {
      const watched = { query, connection: db } as unknown as EntityManager;
      await withdrawImport(watched, id, { by: 'x', reason: 'x', at: new Date(0) });
      await takeBackState(watched, id);
    } finally {
      await runner.rollbackTransaction();
      await runner.release();
    }
    // Two records a fish; some dozens of looks at each, where the square is 3.6 million.
    expect(looked).toBeGreaterThan(2 * FISH);
    expect(looked).toBeLessThan(200 * FISH);
  });
});
