import type { DataSource, EntityManager, EntityMetadata } from 'typeorm';
import { RequestError } from '../errors/request-error.js';
import type { RecordKind } from '../database/record-kind.js';
import { standingSql, standingView } from './standing.js';

/** Records of one kind that people made since, and that point to records of the import. */
export interface Resting {
  readonly kind: RecordKind;
  readonly count: number;
  /** Tags or codes by which they are found, the first of them. */
  readonly names: readonly string[];
}

export interface TakeBackState {
  readonly resting: readonly Resting[];
  /** Records of the import that were changed since and are in use. */
  readonly changed: number;
  readonly changedNames: readonly string[];
}

interface ImportedTable {
  readonly kind: RecordKind;
  readonly table: string;
  /** The field that no two records share, freed when it is taken back. */
  readonly unique: string | null;
  /** What people find it by; `t` is the row. */
  readonly name: string;
}

/** What an import can make. */
const IMPORTED: readonly ImportedTable[] = [
  { kind: 'fish', table: 'fish', unique: 'tag', name: 't.tag' },
  { kind: 'spawn', table: 'spawn', unique: 'tag', name: 't.tag' },
  { kind: 'line', table: 'line', unique: 'code', name: 't.code' },
  { kind: 'trait', table: 'trait_definition', unique: 'key', name: 't.name' },
  {
    kind: 'score',
    table: 'score',
    unique: null,
    name: '(SELECT tag FROM fish WHERE id = t.fish_id)',
  },
];

const NAMED = 12;

/** Kinds are called like their tables, but for these. */
const kindOf = (table: string): string =>
  ({ trait_definition: 'trait', own_locus: 'locus' })[table] ?? table;

const ownName = (entity: EntityMetadata): string | undefined =>
  ['tag', 'code'].find((name) => entity.columns.some((column) => column.databaseName === name));

/** A pairing is not withdrawn but dropped. */
const notDropped = (table: string): string =>
  table === 'pairing' ? ` AND d.state <> 'dropped'` : '';

/** Every column of the schema that points to what an import can make, so that a new table is never forgotten. */
const pointers = ({ entityMetadatas }: DataSource): string[] =>
  entityMetadatas
    .filter(({ columns }) => columns.some(({ databaseName }) => databaseName === 'withdrawn_at'))
    .flatMap((entity) =>
      entity.foreignKeys.flatMap(({ columns, referencedEntityMetadata }) => {
        const target = IMPORTED.find(({ table }) => table === referencedEntityMetadata.tableName);
        const column = columns[0]?.databaseName;
        if (target === undefined || column === undefined) return [];
        const own = ownName(entity);
        return [
          `SELECT '${kindOf(entity.tableName)}' AS kind, d.id, ${own === undefined ? target.name : `d."${own}"`} AS name
           FROM made m JOIN "${target.table}" t ON t.id = m.record_id
           JOIN ${standingView(entity.tableName)} d ON d."${column}" = t.id
           WHERE m.record_kind = '${target.kind}'${notDropped(entity.tableName)}`,
        ];
      }),
    );

/** Sheets name their traits in a document, where no reference is checked. */
const SHEETS = `
  SELECT 'score_sheet' AS kind, s.id, s.name
  FROM standing_score_sheet s JOIN score_sheet_version v ON v.sheet_id = s.id AND v.version = s.version
  CROSS JOIN LATERAL jsonb_array_elements(v.lines) AS l
  JOIN made m ON m.record_kind = 'trait' AND m.record_id::text = l->>'traitId'`;

const MADE = `WITH made AS MATERIALIZED (
  SELECT record_kind, record_id FROM past_import_record WHERE past_import_id = $1)`;

/** What has come to rest on an import since, and which of its records were changed. Cost: linear in its records. */
export const takeBackState = async (
  manager: EntityManager,
  importId: string,
): Promise<TakeBackState> => {
  const all = [...pointers(manager.connection), SHEETS].join('\nUNION ALL\n');
  const resting: { kind: RecordKind; count: number; names: string[] }[] = await manager.query(
    `${MADE}, pointing AS (${all})
     SELECT p.kind, count(DISTINCT p.id)::int AS count,
       to_json((array_agg(DISTINCT p.name ORDER BY p.name))[1:${NAMED}]) AS names
     FROM pointing p WHERE NOT EXISTS (SELECT 1 FROM made m WHERE m.record_id = p.id)
     GROUP BY p.kind ORDER BY p.kind`,
    [importId],
  );
  const since = IMPORTED.map(
    ({ kind, table, name }) => `
      SELECT t.id, ${name} AS name FROM made m JOIN ${standingView(table)} t ON t.id = m.record_id
      WHERE m.record_kind = '${kind}' AND t.revision > 1`,
  ).join('\nUNION ALL\n');
  const [changed]: { count: number; names: string[] | null }[] = await manager.query(
    `${MADE}, since AS (${since})
     SELECT count(*)::int AS count, to_json((array_agg(DISTINCT name ORDER BY name))[1:${NAMED}]) AS names FROM since`,
    [importId],
  );
  return { resting, changed: changed?.count ?? 0, changedNames: changed?.names ?? [] };
};

const total = (resting: readonly Resting[]): number =>
  resting.reduce((sum, { count }) => sum + count, 0);

/** Refuses while anything in use rests on the import, naming it. */
export const expectNothingRests = ({ resting }: TakeBackState): void => {
  const first = resting[0];
  if (first === undefined) return;
  const count = total(resting);
  const names = resting.map(
    ({ kind, count: each, names: some }) =>
      `${kind.replaceAll('_', ' ')} (${each}): ${some.join(', ')}${some.length < each ? ' …' : ''}`,
  );
  throw new RequestError(
    'IN_USE',
    `This import was not taken back: ${count === 1 ? 'one later record depends' : `${count} later records depend`} on it. Withdraw ${count === 1 ? 'it' : 'them'} first (drop a pairing), then take the import back. ${names.join('; ')}.`,
    { resting },
  );
};

/** The fields whose values are freed and what the history says of it; `o` is the row. */
const freed = ({ unique }: ImportedTable): { set: string; told: string } => {
  if (unique === null) return { set: '', told: '' };
  const ending = (row: string) => `left(${row}."${unique}", 80) || '~' || left(${row}.id::text, 8)`;
  return {
    set: `, "${unique}" = ${ending('t')}`,
    told: ` || jsonb_build_object('${unique}', jsonb_build_object('before', o."${unique}", 'after', ${ending('o')}))`,
  };
};

/**
 * Told first, then changed: each statement reads its table once by the ids of the import. Joining the changed rows to the rows
 * of before within one statement compares all with all where the server has no figures of the new rows yet.
 */
const withdrawSteps = (imported: ImportedTable): readonly [string, string] => {
  const { kind, table, unique } = imported;
  const { set, told } = freed(imported);
  const rows = `past_import_record m
         WHERE m.record_id = t.id AND m.past_import_id = $1 AND m.record_kind = '${kind}'
           ${unique === null ? `AND ${standingSql('t')}` : ''}`;
  return [
    `WITH old AS MATERIALIZED (SELECT t.* FROM "${table}" t, ${rows} FOR UPDATE OF t)
       INSERT INTO record_history (record_kind, record_id, revision, by_name, action, changes)
       SELECT '${kind}', o.id, o.revision + 1, $3, CASE WHEN ${standingSql('o')} THEN 'withdrawn' ELSE 'corrected' END,
         CASE WHEN ${standingSql('o')}
           THEN jsonb_build_object('withdrawnReason', jsonb_build_object('before', NULL, 'after', $2::text))
           ELSE '{}'::jsonb END ${told}
       FROM old o`,
    `UPDATE "${table}" t SET revision = t.revision + 1, updated_at = now(),
       withdrawn_at = coalesce(t.withdrawn_at, $3::timestamptz),
       withdrawn_reason = CASE WHEN ${standingSql('t')} THEN $2 ELSE t.withdrawn_reason END ${set}
     FROM ${rows}`,
  ];
};

/**
 * Withdraws all that an import made, each record with the reason in its history. Tags, codes and keys get an ending, so
 * that the corrected file can use them: unlike the tag of a withdrawn fish, one that came by mistake was never in use.
 * Cost: linear in the import's records.
 */
export const withdrawImport = async (
  manager: EntityManager,
  importId: string,
  { by, reason, at }: { by: string; reason: string; at: Date },
): Promise<void> => {
  for (const imported of IMPORTED) {
    const [tell, change] = withdrawSteps(imported);
    await manager.query(tell, [importId, reason, by]);
    await manager.query(change, [importId, reason, at]);
  }
};
