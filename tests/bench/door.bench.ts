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
import { totalOf } from '../../apps/api/src/graphql/keyset.js';
import { openDatabase } from '../../apps/api/src/stock/open-database.js';
import { candidateRows } from '../../apps/api/src/stock/candidate-rows.js';
import { listFish } from '../../apps/api/src/stock/fish-list.js';

/** How many fish, and how often each question is asked. */
const SIZES = [
  { fish: 10_000, rounds: 100 },
  { fish: 100_000, rounds: 20 },
] as const;
const LINES = 20;
/** Of so many lines the first are kept by keepers, which the owner does not see. */
const KEPT = 5;
/** A line that all see who ask, with fish in use. */
const SEEN = 15;

const fishRow = (i: number, personId: string, lines: readonly string[]) => ({
  id: randomUUID(),
  person_id: personId,
  tag: `T-${String(i).padStart(6, '0')}`,
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

/** What a person waits for: lists of a page each, one fish, and the fish of a list of pairs; of a line that all see who ask. */
const questions = (lineId: string, fishId: string, fish: number): Readonly<Record<string, Ask>> => {
  const far = cursor(`T-${String(fish * 0.75).padStart(6, '0')}`);
  return {
    'list, newest': (d) => listFish(d.manager, {}, newest, 50, undefined),
    'list, newest, with its total': async (d) =>
      totalOf(await listFish(d.manager, {}, newest, 50, undefined)),
    'list, by tag': (d) => listFish(d.manager, {}, tag, 50, undefined),
    'list, by tag, far down': (d) => listFish(d.manager, {}, tag, 50, far),
    'list, text sought': (d) => listFish(d.manager, { text: '77' }, tag, 50, undefined),
    'list, one line': (d) => listFish(d.manager, { lineIds: [lineId] }, tag, 50, undefined),
    'pairs, one line': (d) => candidateRows(d.manager, [], { lineIds: [lineId], partners: true }),
    'one fish': (d) => d.query('SELECT * FROM fish WHERE id = $1', [fishId]),
    'whole pedigree': (d) =>
      d.query(
        'SELECT f.id, s.sire_id, s.dam_id FROM fish f LEFT JOIN spawn s ON s.id = f.spawn_id',
      ),
  };
};

const middle = (times: number[]): number => times.toSorted((a, b) => a - b)[times.length >> 1] ?? 0;
const rounded = (ms: number): number => Math.round(ms * 1_000) / 1_000;

interface Stock {
  readonly past: DataSource;
  readonly product: DataSource;
  readonly lines: readonly string[];
  readonly owner: Actor;
  readonly keeper: Actor;
  /** A fish that all see who ask. */
  readonly fishId: string;
}

const fill = async (past: DataSource, product: DataSource, fish: number): Promise<Stock> => {
  const [ownerId, keeperId] = [randomUUID(), randomUUID()];
  const lines = Array.from({ length: LINES }, () => randomUUID());
  await past.query(
    `INSERT INTO person (id, name, here, role) VALUES ($1, 'Bench', true, 'owner'), ($2, 'Keeper', false, 'keeper')`,
    [ownerId, keeperId],
  );
  await past.query(
    `INSERT INTO line (id, person_id, code, name) SELECT id, $1, 'L' || n, 'L' || n FROM unnest($2::uuid[]) WITH ORDINALITY AS l(id, n)`,
    [ownerId, lines],
  );
  const rows = Array.from({ length: fish }, (_, i) => fishRow(i, ownerId, lines));
  await past.query(
    `INSERT INTO fish (id, person_id, swims_with_id, tag, sex, hatch_date, line_id, disposition)
     SELECT id, person_id, person_id, tag, sex, hatch_date, line_id, disposition
     FROM json_to_recordset($1::json) AS r(id uuid, person_id uuid, tag text, sex text, hatch_date date, line_id uuid, disposition text)`,
    [JSON.stringify(rows)],
  );
  await past.query('ANALYZE');
  return {
    ...{ past, product, lines, fishId: rows[LINES * 200 + SEEN]!.id },
    owner: { kind: 'account', id: ownerId, name: 'Bench', role: 'owner' },
    keeper: { kind: 'account', id: keeperId, name: 'Keeper', role: 'keeper' },
  };
};

/** Gives the first lines to the keeper, and a line of the owner's to look at. */
const makeKeeper = async ({ past, lines, keeper }: Stock): Promise<void> => {
  const { id } = keeper as { id: string };
  await past.query(
    'INSERT INTO kept_line (line_id, account_id) SELECT id, $1 FROM unnest($2::uuid[]) AS l(id)',
    [id, lines.slice(0, KEPT)],
  );
  await past.query(`INSERT INTO line_grant (line_id, account_id, level) VALUES ($1, $2, 'breed')`, [
    lines[SEEN],
    id,
  ]);
  await past.query('ANALYZE');
};

interface Asked {
  readonly through: string;
  readonly actor: Actor;
  readonly fish: number;
  readonly rounds: number;
}

const ask = async (
  { past, product, lines, fishId }: Stock,
  { through: who, actor, fish, rounds }: Asked,
  emit: (line: object) => void,
): Promise<void> => {
  for (const [what, work] of Object.entries(questions(lines[SEEN]!, fishId, fish))) {
    const [without, through]: [number[], number[]] = [[], []];
    const timed = async (into: number[], done: () => Promise<unknown>): Promise<void> => {
      const started = performance.now();
      await done();
      into.push(performance.now() - started);
    };
    for (let round = 0; round < rounds; round += 1) {
      await timed(without, () => work(past));
      await timed(through, () => actAs(actor, () => work(product)));
    }
    emit({
      ...{ what, who, fish, rounds, unit: 'ms' },
      without: { median: rounded(middle(without)), least: rounded(Math.min(...without)) },
      through: { median: rounded(middle(through)), least: rounded(Math.min(...through)) },
    });
  }
};

const measure = async (
  { fish, rounds }: (typeof SIZES)[number],
  emit: (line: object) => void,
): Promise<void> => {
  const dataDir = mkdtempSync(join(tmpdir(), 'linewright-bench-'));
  chmodSync(dataDir, 0o755);
  const database = await openDatabase(readConfig({ DATA_DIR: dataDir }));
  const past = new DataSource({ ...dataSourceOptions(database.ownerUrl), driver: pg });
  try {
    await past.initialize();
    const stock = await fill(past, database.dataSource, fish);
    const { owner, keeper } = stock;
    await ask(stock, { through: 'the owner', actor: owner, fish, rounds }, emit);
    await makeKeeper(stock);
    const among = { ...owner, amongKeepers: true } as Actor;
    await ask(stock, { through: 'the owner among keepers', actor: among, fish, rounds }, emit);
    await ask(stock, { through: 'a keeper', actor: keeper, fish, rounds }, emit);
  } finally {
    await past.destroy();
    await database.close();
    rmSync(dataDir, { recursive: true, force: true });
  }
};

/**
 * The same questions on the same fish, past the policies (as whoever owns the tables) and through them (as the product), turn about, so
 * that a busy machine is busy for both: for an owner alone, for one on whose server a keeper has a quarter of the lines, and for that
 * keeper, who reads through views.
 */
export async function run(emit: (line: object) => void): Promise<void> {
  for (const size of SIZES) await measure(size, emit);
}
