import { randomUUID } from 'node:crypto';
import { chmodSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { DataSource } from 'typeorm';
import 'reflect-metadata';
import { actAs } from '../../apps/api/src/access/acting.js';
import type { Actor } from '../../apps/api/src/access/actor.js';
import { readConfig } from '../../apps/api/src/config/config.js';
import { dataSourceOptions } from '../../apps/api/src/stock/data-source.js';
import { openDatabase } from '../../apps/api/src/stock/open-database.js';
import { listFish } from '../../apps/api/src/stock/fish-list.js';

const FISH = 10_000;
const ROUNDS = 300;

const fishRow = (i: number, personId: string, lines: readonly string[]) => ({
  id: randomUUID(),
  person_id: personId,
  tag: `T-${String(i).padStart(5, '0')}`,
  sex: i % 2 === 0 ? 'male' : 'female',
  hatch_date: `20${String(10 + Math.floor(i / 700)).padStart(2, '0')}-03-${String(1 + (i % 28)).padStart(2, '0')}`,
  line_id: lines[i % lines.length]!,
  disposition: i % 5 === 0 ? 'keeper' : 'culled',
});

type Ask = (dataSource: DataSource) => Promise<unknown>;

const tag = { field: 'TAG', direction: 'ASC' } as const;
const newest = { field: 'HATCH_DATE', direction: 'DESC' } as const;
const cursor = (key: string): string =>
  Buffer.from(JSON.stringify([key, '00000000-0000-0000-0000-000000000000'])).toString('base64url');

/** What a person waits for: lists of a page each, one fish, and a line's fish. */
const questions = (lineId: string, fishId: string): Readonly<Record<string, Ask>> => ({
  'list, newest': (d) => listFish(d.manager, {}, newest, 50, undefined),
  'list, by tag': (d) => listFish(d.manager, {}, tag, 50, undefined),
  'list, by tag, far down': (d) => listFish(d.manager, {}, tag, 50, cursor('T-07500')),
  'list, text sought': (d) => listFish(d.manager, { text: '77' }, tag, 50, undefined),
  'list, one line': (d) => listFish(d.manager, { lineIds: [lineId] }, tag, 50, undefined),
  'one fish': (d) => d.query('SELECT * FROM fish WHERE id = $1', [fishId]),
  'whole pedigree': (d) =>
    d.query('SELECT f.id, s.sire_id, s.dam_id FROM fish f LEFT JOIN spawn s ON s.id = f.spawn_id'),
});

const middle = (times: number[]): number => times.toSorted((a, b) => a - b)[times.length >> 1] ?? 0;
const rounded = (ms: number): number => Math.round(ms * 1_000) / 1_000;

/**
 * The same questions on the same 10,000 fish, past the policies (as whoever owns the tables) and through them (as the product, for the
 * owner), turn about, so that a busy machine is busy for both.
 */
export async function run(emit: (line: object) => void): Promise<void> {
  const dataDir = mkdtempSync(join(tmpdir(), 'linewright-bench-'));
  chmodSync(dataDir, 0o755);
  const database = await openDatabase(readConfig({ DATA_DIR: dataDir }));
  const past = new DataSource({ ...dataSourceOptions(database.ownerUrl), driver: pg });
  try {
    await past.initialize();
    const personId = randomUUID();
    const owner: Actor = { kind: 'account', id: personId, name: 'Bench', role: 'owner' };
    const lines = Array.from({ length: 20 }, () => randomUUID());
    await past.query(
      `INSERT INTO person (id, name, here, role) VALUES ($1, 'Bench', true, 'owner')`,
      [personId],
    );
    await past.query(
      `INSERT INTO line (id, person_id, code, name) SELECT id, $1, 'L' || n, 'L' || n FROM unnest($2::uuid[]) WITH ORDINALITY AS l(id, n)`,
      [personId, lines],
    );
    const rows = Array.from({ length: FISH }, (_, i) => fishRow(i, personId, lines));
    await past.query(
      `INSERT INTO fish (id, person_id, swims_with_id, tag, sex, hatch_date, line_id, disposition)
       SELECT id, person_id, person_id, tag, sex, hatch_date, line_id, disposition
       FROM json_to_recordset($1::json) AS r(id uuid, person_id uuid, tag text, sex text, hatch_date date, line_id uuid, disposition text)`,
      [JSON.stringify(rows)],
    );
    await past.query('ANALYZE');
    for (const [what, ask] of Object.entries(questions(lines[3]!, rows[4_321]!.id))) {
      const without: number[] = [];
      const through: number[] = [];
      const timed = async (into: number[], work: () => Promise<unknown>): Promise<void> => {
        const started = performance.now();
        await work();
        into.push(performance.now() - started);
      };
      for (let round = 0; round < ROUNDS; round += 1) {
        await timed(without, () => ask(past));
        await timed(through, () => actAs(owner, () => ask(database.dataSource)));
      }
      emit({
        what,
        fish: FISH,
        rounds: ROUNDS,
        unit: 'ms',
        without: { median: rounded(middle(without)), least: rounded(Math.min(...without)) },
        through: { median: rounded(middle(through)), least: rounded(Math.min(...through)) },
      });
    }
  } finally {
    await past.destroy();
    await database.close();
    rmSync(dataDir, { recursive: true, force: true });
  }
}
