import { createHash } from 'node:crypto';
import type { QueryRunner } from 'typeorm';
import { type GrantPart, LENT_SCHEMA } from '../access/grant.js';

/** Columns of a table that are empty unless that part of its line was lent, and how the line of a row is found. */
interface Masked {
  /** SQL of the id of a row's line; the row is `t`. */
  readonly line: string;
  /** SQL of whose the row is: of their own records people see all. */
  readonly own: string;
  readonly columns: Readonly<Partial<Record<GrantPart, readonly string[]>>>;
  /** SQL of the fish that a row is of: what was agreed to go along with one that was handed over is seen by whoever has it. */
  readonly fish?: string;
}

const note = { notes: ['note'] };
const ofFish = (columns: Masked['columns'], own?: string): Masked => ({
  line: '(SELECT f.line_id FROM fish f WHERE f.id = t.fish_id)',
  own: own ?? '(SELECT f.person_id FROM fish f WHERE f.id = t.fish_id)',
  fish: 't.fish_id',
  columns,
});
const ofSpawn = (columns: Masked['columns']): Masked => ({
  line: '(SELECT s.line_id FROM spawn s WHERE s.id = t.spawn_id)',
  own: '(SELECT s.person_id FROM spawn s WHERE s.id = t.spawn_id)',
  columns,
});
const itself = { line: 't.line_id', own: 't.person_id' };

const masked: Readonly<Record<string, Masked>> = {
  fish: {
    ...{ ...itself, fish: 't.id' },
    columns: { notes: ['note', 'disposition_reason'], place: ['swims_with_id'] },
  },
  spawn: { ...itself, columns: { notes: ['note', 'purpose', 'failed_reason'] } },
  spawn_event: ofSpawn(note),
  spawn_count: ofSpawn(note),
  spawn_loss: ofSpawn(note),
  class_count: ofSpawn(note),
  care_record: ofSpawn(note),
  water_reading: ofSpawn(note),
  genotype: ofFish(note),
  phenotype: ofFish(note),
  show_result: ofFish(note, 't.by_account_id'),
  fish_deal: ofFish({ notes: ['with_whom', 'note'] }, 't.person_id'),
  score: ofFish(note, 't.by_account_id'),
  sheet_scoring: ofFish(note, 't.by_account_id'),
  photo: {
    line: `coalesce((SELECT f.line_id FROM fish f WHERE f.id = t.fish_id),
      (SELECT s.line_id FROM spawn s WHERE s.id = t.spawn_id))`,
    own: 'NULL::uuid',
    fish: 't.fish_id',
    columns: { notes: ['caption'] },
  },
  pairing: {
    line: '(SELECT f.line_id FROM fish f WHERE f.id = t.sire_id)',
    // Whoever makes a pair reads all of it, and changes it.
    own: '(CASE WHEN t.maker_id = (SELECT door_account()) THEN t.maker_id ELSE t.person_id END)',
    columns: { notes: ['note', 'reason'] },
  },
};

/** Columns of a table that are empty for whoever a part was not lent to, in the names of its entity's fields. */
export const fieldsOfPart = (table: string, part: GrantPart): string[] =>
  (masked[table]?.columns[part] ?? []).map((column) =>
    column.replace(/_([a-z])/g, (_, letter: string) => letter.toUpperCase()),
  );

const quoted = (name: string): string => `"${name.replaceAll('"', '""')}"`;

/** Of whoever gave a score, partners are told that it was themselves or the owner, and of others that it was somebody. */
const SCORER = `CASE WHEN t.by_account_id IS NULL OR t.by_account_id = (SELECT door_account())
  OR EXISTS (SELECT 1 FROM person p WHERE p.id = t.by_account_id AND p.here) THEN t.scorer ELSE 'not shown' END AS scorer`;

const columnSql = (column: string, { line, own, fish, columns }: Masked): string => {
  if (column === 'scorer') return SCORER;
  const part = (Object.keys(columns) as GrantPart[]).find((one) => columns[one]?.includes(column));
  const name = quoted(column);
  if (part === undefined) return `t.${name}`;
  const handed =
    fish === undefined ? '' : ` OR ${fish} = ANY ((SELECT door_fish('${part}'))::uuid[])`;
  return `CASE WHEN ${line} = ANY ((SELECT door_lines_with('${part}'))::uuid[]) OR ${own} = (SELECT door_account())${handed}
    THEN t.${name} END AS ${name}`;
};

const rowsOf = <Row>(runner: QueryRunner, sql: string, given: unknown[] = []): Promise<Row[]> =>
  runner.query(sql, given) as Promise<Row[]>;

/** The statements that make the views, from the tables as they are; views that read a masked table follow. */
const definitions = async (runner: QueryRunner): Promise<string[]> => {
  const columns = await rowsOf<{ table: string; names: string[] }>(
    runner,
    `SELECT c.relname AS table, array_agg(a.attname::text ORDER BY a.attnum) AS names
     FROM pg_class c JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum > 0 AND NOT a.attisdropped
     WHERE c.relnamespace = current_schema()::regnamespace AND c.relkind = 'r' AND c.relname = ANY ($1)
     GROUP BY c.relname ORDER BY c.relname`,
    [Object.keys(masked)],
  );
  const views = await rowsOf<{ name: string; meaning: string }>(
    runner,
    `SELECT relname AS name, pg_get_viewdef(oid) AS meaning FROM pg_class
     WHERE relnamespace = current_schema()::regnamespace AND relkind = 'v' ORDER BY oid`,
  );
  const view = (name: string, meaning: string): string =>
    `CREATE VIEW ${LENT_SCHEMA}.${quoted(name)} WITH (security_invoker = true) AS ${meaning}`;
  return [
    ...columns.map(({ table, names }) => {
      const list = names.map((name) => columnSql(name, masked[table]!));
      return view(table, `SELECT ${list.join(', ')} FROM ${quoted(table)} t`);
    }),
    // What a view reads is looked for among the masked tables first.
    `SELECT set_config('search_path', '${LENT_SCHEMA}, ' || current_setting('search_path'), true)`,
    ...views.map(({ name, meaning }) => view(name, meaning)),
  ];
};

/** Whoever may read and write the tables may do the same through the views. */
const handOn = async (runner: QueryRunner): Promise<void> => {
  const holders = await rowsOf<{ name: string }>(
    runner,
    `SELECT DISTINCT pg_get_userbyid(a.grantee) AS name FROM pg_class c, aclexplode(c.relacl) a
     WHERE c.oid = 'fish'::regclass AND a.grantee NOT IN (0, c.relowner)`,
  );
  for (const { name } of holders) {
    await runner.query(`GRANT USAGE ON SCHEMA ${LENT_SCHEMA} TO ${quoted(name)}`);
    await runner.query(
      `GRANT SELECT, INSERT, UPDATE, DELETE ON ALL TABLES IN SCHEMA ${LENT_SCHEMA} TO ${quoted(name)}`,
    );
  }
};

/** Takes the views away, so that the tables under them can be changed. */
export const dropLentViews = async (runner: QueryRunner): Promise<void> => {
  await runner.query(`DROP SCHEMA IF EXISTS ${LENT_SCHEMA} CASCADE`);
};

/**
 * Makes the views through which partners read: every table and view with something in it that is lent part by part, under its own name,
 * with the rest empty. Connections of partners look for names among them first, so whatever a statement asks for, this is what it finds.
 * Left as they are where they are so already. In the caller's transaction.
 */
export const makeLentViews = async (runner: QueryRunner): Promise<void> => {
  const statements = await definitions(runner);
  const print = createHash('sha256').update(statements.join('\n')).digest('hex');
  const [found] = await rowsOf<{ print: string | null }>(
    runner,
    `SELECT obj_description(oid, 'pg_namespace') AS print FROM pg_namespace WHERE nspname = $1`,
    [LENT_SCHEMA],
  );
  if (found?.print === print) return;
  const [path] = await rowsOf<{ path: string }>(
    runner,
    `SELECT current_setting('search_path') AS path`,
  );
  await dropLentViews(runner);
  await runner.query(`CREATE SCHEMA ${LENT_SCHEMA}`);
  for (const statement of statements) await runner.query(statement);
  await runner.query(`SELECT set_config('search_path', $1, true)`, [path?.path]);
  await handOn(runner);
  await runner.query(`COMMENT ON SCHEMA ${LENT_SCHEMA} IS '${print}'`);
};
