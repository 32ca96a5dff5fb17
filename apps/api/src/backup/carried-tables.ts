import type { DataSource, QueryRunner } from 'typeorm';

/** Tables that a backup leaves out, each with the reason. Every other table of the schema is carried. */
export const leftOut: Readonly<Record<string, string>> = {
  migration: 'names the schema changes: the manifest names them, and a restore makes them',
  session: 'browsers that are signed in: after a restore everyone signs in again',
  invitation: 'links that were sent out: after a restore the owner makes new ones',
  second_step: 'secrets of second steps: after a restore they are set up again',
  spare_code: 'codes that stand in for a phone: made again with the second step',
  passkey_challenge: 'questions that a passkey has a few minutes to answer',
  program_token: 'tokens of programs: after a restore new ones are made',
  refused_attempt: 'refused sign-ins of the last day',
  computation: 'answers that are worked out again from the records',
  record_mark: 'marks that each change of records leaves: a restore leaves its own',
  import_run: 'files that are being taken in: choose the file again',
  share_state:
    'tells this install from others: restored, it is another one, whose changes are counted from the start',
  line_exchange:
    'tells what was last given to and taken from partners: a restored install is another one to them',
  backup_run: 'lists backup files on this machine',
};

/** May hold a row in an install without records: its state, and an owner with a password and passkeys. */
export const withoutRecords: readonly string[] = [
  'install_state',
  'person',
  'credential',
  'passkey',
];

/** Tables that a backup carries, by name. */
export const carriedTables = (dataSource: DataSource): readonly string[] =>
  dataSource.entityMetadatas
    .map((entity) => entity.tableName)
    .filter((table) => !(table in leftOut))
    .sort();

export const quoted = (name: string): string => `"${name.replaceAll('"', '""')}"`;

/** Columns that are written, in the order of the table. */
export const columnsOf = async (
  { query }: { query: (sql: string, parameters?: unknown[]) => Promise<unknown> },
  table: string,
): Promise<readonly string[]> => {
  const rows = (await query(
    `SELECT attname AS name FROM pg_attribute
     WHERE attrelid = to_regclass(quote_ident(current_schema()) || '.' || quote_ident($1))
       AND attnum > 0 AND NOT attisdropped AND attgenerated = '' ORDER BY attnum`,
    [table],
  )) as { name: string }[];
  return rows.map((row) => row.name);
};

/** Numbers given by the database go on behind the highest one that a table holds. */
export const setSequences = async (runner: QueryRunner, table: string): Promise<void> => {
  const rows = (await runner.query(
    `SELECT attname AS name FROM pg_attribute
     WHERE attrelid = to_regclass(quote_ident(current_schema()) || '.' || quote_ident($1))
       AND attidentity <> '' AND NOT attisdropped`,
    [table],
  )) as { name: string }[];
  for (const { name } of rows) {
    await runner.query(
      `SELECT setval(pg_get_serial_sequence($1, $2), coalesce(max(${quoted(name)}), 0) + 1, false) FROM ${quoted(table)}`,
      [quoted(table), name],
    );
  }
};
