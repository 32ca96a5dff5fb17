import { DataSource, type EntityManager } from 'typeorm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { asSystem } from '../../apps/api/src/access/acting.js';
import { type RecordMark, stateOf } from '../../apps/api/src/stock/records-state.js';
import { recordsOf, type RunningApi, startApi } from './harness.js';
import { sql } from './more-rows.js';

const COUNTED: readonly RecordMark[] = [
  ...(['fish', 'spawn', 'genotype', 'phenotype', 'class_count', 'spawn_loss'] as const),
  ...(['spawn_count', 'spawn_event', 'own_locus', 'locus_setting', 'score'] as const),
  ...(['trait_definition', 'trait_model', 'scoring_draw', 'line_purpose'] as const),
];

/** A kind, its table, a column of which it counts, and one of which it does not. */
const NAMED: readonly [RecordMark, string, string, string][] = [
  ['fish_named', 'fish', 'tag', 'note'],
  ['spawn_named', 'spawn', 'hatch_date', 'note'],
  ['line_named', 'line', 'name', 'goal'],
  ['person_named', 'person', 'name', 'role'],
];

describe('the state of records', () => {
  let api: RunningApi;
  let records: DataSource;
  const now = (...marks: RecordMark[]): Promise<string> =>
    asSystem('demo', () => stateOf(records, marks));
  const inTransaction = (work: (manager: EntityManager) => Promise<void>): Promise<void> =>
    asSystem('demo', () => records.transaction(work));
  /** Writes a row of that table as it was. */
  const touch = (table: string, column: string): Promise<unknown> =>
    sql(
      api,
      `UPDATE "${table}" SET "${column}" = "${column}" WHERE ctid = (SELECT min(ctid) FROM "${table}")`,
    );

  beforeAll(async () => {
    api = await startApi({ demo: true });
    records = api.served.app.get(DataSource, { strict: false });
  });
  afterAll(() => api.close());

  it('is the same as long as nothing is written', async () => {
    expect(await now(...COUNTED)).toBe(await now(...COUNTED));
  });

  it.each(COUNTED.map((mark) => [mark]))('is another one after any change of %s', async (mark) => {
    const before = await now(mark);
    const others = await now(...COUNTED.filter((one) => one !== mark));
    // A statement of no row counts too: it was a change for all that the trigger knows.
    await sql(api, `UPDATE "${mark}" SET ${await firstColumn(mark)} WHERE false`);
    expect(await now(mark)).not.toBe(before);
    const pedigree = ['fish', 'spawn'].includes(mark);
    if (!pedigree) expect(await now(...COUNTED.filter((one) => one !== mark))).toBe(others);
  });

  it.each(NAMED)('of %s hangs on %s.%s and not on %s', async (mark, table, counted, other) => {
    const before = await now(mark);
    await touch(table, other);
    expect(await now(mark)).toBe(before);
    await touch(table, counted);
    expect(await now(mark)).not.toBe(before);
  });

  it('counts a loss for a look where it is told to be one', async () => {
    const loss = (locus: string | null) =>
      sql(
        api,
        `UPDATE spawn_loss SET locus_id = $1 WHERE id = (SELECT id FROM spawn_loss WHERE locus_id IS NULL ORDER BY id LIMIT 1)`,
        [locus],
      );
    const before = await now('spawn_loss_of_look');
    await loss(null);
    expect(await now('spawn_loss_of_look')).toBe(before);
    await loss('dt');
    const told = await now('spawn_loss_of_look');
    expect(told).not.toBe(before);
    await sql(api, `UPDATE spawn_loss SET locus_id = NULL WHERE locus_id = 'dt'`);
    expect(await now('spawn_loss_of_look')).not.toBe(told);
  });

  it('is that of what is committed, whichever of two began first', async () => {
    const states = [await now('score')];
    let endFirst = (): void => {};
    let firstWrote = (): void => {};
    const wrote = new Promise<void>((resolve) => (firstWrote = resolve));
    const first = inTransaction(async (manager) => {
      await manager.query('UPDATE score SET value = value WHERE false');
      firstWrote();
      await new Promise<void>((resolve) => (endFirst = resolve));
    });
    await wrote;
    expect(await now('score')).toBe(states[0]);
    await inTransaction(async (manager) => {
      await manager.query('UPDATE score SET value = value WHERE false');
    });
    states.push(await now('score'));
    endFirst();
    await first;
    states.push(await now('score'));
    expect(new Set(states).size).toBe(3);
  });

  it('is the same as before where a change was taken back', async () => {
    const before = await now('score');
    const fault = new Error('taken back');
    const failed = inTransaction(async (manager) => {
      await manager.query('UPDATE score SET value = value WHERE false');
      throw fault;
    });
    await expect(failed).rejects.toBe(fault);
    expect(await now('score')).toBe(before);
  });

  it('stays what it is when its marks are put together, also beside a change that is not committed yet', async () => {
    const marks = async (): Promise<number> =>
      (
        await sql<{ n: number }>(
          api,
          `SELECT count(*)::int AS n FROM record_mark WHERE kind = 'genotype'`,
        )
      )[0]!.n;
    // Every 256th mark puts those of its kind together: the test begins behind one.
    await (
      await recordsOf(api)
    ).query(
      `SELECT setval(pg_get_serial_sequence('record_mark', 'id'), 256 * (max(id) / 256 + 1)) FROM record_mark`,
    );
    for (let k = 0; k < 20; k++) await sql(api, 'UPDATE genotype SET note = note WHERE false');
    const before = await now('genotype');
    expect(await marks()).toBeGreaterThan(1);
    await inTransaction(async (manager) => {
      await manager.query('UPDATE genotype SET note = note WHERE false');
      await sql(api, `SELECT fold_record_marks('genotype')`);
      expect(await now('genotype')).toBe(before);
    });
    expect(await marks()).toBe(2);
    const after = await now('genotype');
    expect(after).not.toBe(before);
    await Promise.all(
      Array.from({ length: 4 }, () => sql(api, `SELECT fold_record_marks('genotype')`)),
    );
    expect(await marks()).toBe(1);
    expect(await now('genotype')).toBe(after);
  });

  it('does not gather marks without end', async () => {
    for (let k = 0; k < 600; k++)
      await sql(api, 'UPDATE scoring_draw SET revision = revision WHERE false');
    const [held] = await sql<{ n: number }>(
      api,
      `SELECT count(*)::int AS n FROM record_mark WHERE kind = 'scoring_draw'`,
    );
    expect(held!.n).toBeLessThan(257);
  });

  const firstColumn = async (table: string): Promise<string> => {
    const [column] = await sql<{ name: string }>(
      api,
      `SELECT quote_ident(attname) AS name FROM pg_attribute WHERE attrelid = to_regclass($1) AND attnum > 0 ORDER BY attnum LIMIT 1`,
      [table],
    );
    return `${column!.name} = ${column!.name}`;
  };
});
