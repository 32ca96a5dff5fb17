import { columnName, rowType } from './bulk-insert.js';
import type { Records } from './reads.js';
import { standingSql } from './standing.js';

/** A table whose records go to a partner, and what of a record stands in a table of its own: the SQL that reads it beside the record `t`. */
export interface SharedTable {
  readonly table: string;
  readonly apart: Readonly<Record<string, string>>;
}

type Row = Readonly<Record<string, unknown>>;

/** SQL: all versions of the score sheet `t`. */
export const SHEET_VERSIONS = `(SELECT jsonb_agg(jsonb_build_object('version', v.version, 'fromAgeDays', v.from_age_days,
  'toAgeDays', v.to_age_days, 'lines', v.lines, 'faults', v.faults, 'deductions', v.deductions) ORDER BY v.version)
  FROM score_sheet_version v WHERE v.sheet_id = t.id)`;

/** A record of the table `t` as JSON, with what is kept apart from it. */
const asJson = ({ apart }: SharedTable): string =>
  Object.entries(apart).reduce(
    (row, [name, sql]) => `${row} || jsonb_build_object('${name}', ${sql})`,
    'to_jsonb(t)',
  );

const LINES = `line_id = given.line OR line_id IN (SELECT line_id FROM fish WHERE id = ANY(given.fish)) OR line_id IN (SELECT line_id FROM spawn WHERE id = ANY(given.spawns))`;
const OF_LINE = `spawn_id IN (SELECT id FROM spawn WHERE line_id = given.line)`;
const OF_FISH = `fish_id = ANY(given.fish)`;
const SHEETS = `SELECT sheet_id FROM sheet_scoring WHERE ${OF_FISH}`;

/** For each table, which of its records go out with a line. */
const chosen = {
  line: `id = given.line OR id IN (SELECT line_id FROM fish WHERE id = ANY(given.fish)) OR id IN (SELECT line_id FROM spawn WHERE id = ANY(given.spawns))`,
  trait_definition: `id IN (SELECT trait_id FROM score WHERE ${OF_FISH}) OR id IN (
    SELECT (l ->> 'traitId')::uuid FROM score_sheet_version v CROSS JOIN jsonb_array_elements(v.lines) l
    WHERE v.sheet_id IN (${SHEETS}))`,
  score_sheet: `id IN (${SHEETS})`,
  // All those that a record in the file names.
  own_locus: `locus_id IN (
    SELECT locus_id FROM genotype WHERE ${OF_FISH} UNION SELECT locus_id FROM phenotype WHERE ${OF_FISH}
    UNION SELECT unnest(locus_ids) FROM class_count WHERE ${OF_LINE}
    UNION SELECT locus_id FROM spawn_loss WHERE ${OF_LINE} UNION SELECT locus_id FROM locus_setting WHERE ${LINES})`,
  locus_setting: LINES,
  fish: `id = ANY(given.fish)`,
  pairing: `sire_id = ANY(given.fish) AND dam_id = ANY(given.fish)`,
  spawn: `id = ANY(given.spawns)`,
  spawn_event: OF_LINE,
  spawn_count: OF_LINE,
  spawn_loss: OF_LINE,
  class_count: OF_LINE,
  score: OF_FISH,
  sheet_scoring: OF_FISH,
  genotype: OF_FISH,
  phenotype: OF_FISH,
  care_record: OF_LINE,
  water_reading: OF_LINE,
  photo: `${OF_FISH} OR spawn_id IN (SELECT id FROM spawn WHERE line_id = given.line)`,
  care_template: `line_id = given.line`,
  hand_over: OF_FISH,
  fish_claim: OF_FISH,
  fish_deal: OF_FISH,
  show_result: OF_FISH,
} as const;

export type SharedTableName = keyof typeof chosen;

const idsOf = (rows: readonly { readonly id: string }[]): string[] => rows.map(({ id }) => id);

/** The fish of a line, the parents of its spawns, and every ancestor and planned partner that their spawns name. */
export const fishWithLine = async (records: Records, lineId: string): Promise<string[]> =>
  idsOf(
    (await records.query(
      `WITH RECURSIVE wanted(id) AS (
         (SELECT id FROM fish WHERE line_id = $1
          UNION SELECT p.parent FROM spawn s LEFT JOIN pairing g ON g.id = s.pairing_id
            CROSS JOIN LATERAL (VALUES (s.sire_id), (s.dam_id), (g.sire_id), (g.dam_id)) AS p(parent)
          WHERE s.line_id = $1 AND p.parent IS NOT NULL)
         UNION
         SELECT p.parent FROM wanted w
           JOIN fish f ON f.id = w.id JOIN spawn s ON s.id = f.spawn_id
           LEFT JOIN pairing g ON g.id = s.pairing_id
           CROSS JOIN LATERAL (VALUES (s.sire_id), (s.dam_id), (g.sire_id), (g.dam_id)) AS p(parent)
         WHERE p.parent IS NOT NULL
       )
       SELECT id FROM wanted`,
      [lineId],
    )) as { id: string }[],
  );

/** Spawns of a line, and those that the fish are of. */
export const spawnsWithLine = async (
  records: Records,
  lineId: string,
  fish: readonly string[],
): Promise<string[]> =>
  idsOf(
    (await records.query(
      `SELECT id FROM spawn WHERE line_id = $1 OR id IN (SELECT spawn_id FROM fish WHERE id = ANY($2::uuid[]))`,
      [lineId, fish],
    )) as { id: string }[],
  );

/** What goes out with a line. */
export interface GoingOut {
  readonly lineId: string;
  readonly fish: readonly string[];
  readonly spawns: readonly string[];
}

/** The records of one table that go out with a line, withdrawn ones too, by id. */
export const rowsWithLine = async (
  records: Records,
  shared: SharedTable & { readonly table: SharedTableName },
  { lineId, fish, spawns }: GoingOut,
): Promise<Row[]> => {
  const rows = (await records.query(
    `WITH given AS (SELECT $1::uuid AS line, $2::uuid[] AS fish, $3::uuid[] AS spawns)
     SELECT ${asJson(shared)} AS row FROM "${shared.table}" t, given WHERE ${chosen[shared.table]} ORDER BY t.id`,
    [lineId, fish, spawns],
  )) as { row: Row }[];
  return rows.map(({ row }) => row);
};

/** Records of one table by id, withdrawn ones too. */
export const sharedRows = async (
  records: Records,
  shared: SharedTable,
  ids: readonly string[],
): Promise<Row[]> => {
  const rows = (await records.query(
    `SELECT ${asJson(shared)} AS row FROM "${shared.table}" t WHERE id = ANY($1::uuid[])`,
    [ids],
  )) as { row: Row }[];
  return rows.map(({ row }) => row);
};

/** Whose this install is, and whose each line is. */
export const keepersOfLines = async (
  records: Records,
): Promise<{ readonly here: string | null; readonly lines: ReadonlyMap<string, string> }> => {
  const rows = (await records.query(
    `SELECT id, person_id AS "personId" FROM line UNION ALL SELECT NULL, id FROM person WHERE here`,
  )) as { id: string | null; personId: string }[];
  const here = rows.find(({ id }) => id === null)?.personId ?? null;
  return {
    here,
    lines: new Map(rows.flatMap(({ id, personId }) => (id === null ? [] : [[id, personId]]))),
  };
};

/** Which of the ids a table has. */
export const idsIn = async (
  records: Records,
  table: SharedTableName | 'person',
  ids: readonly string[],
): Promise<string[]> =>
  idsOf(
    (await records.query(`SELECT id FROM "${table}" WHERE id = ANY($1::uuid[])`, [ids])) as {
      id: string;
    }[],
  );

/** Revisions of records by id. */
export const revisionsOf = async (
  records: Records,
  table: string,
  ids: readonly string[],
): Promise<Map<string, number>> => {
  const rows = (await records.query(
    `SELECT id, revision FROM "${table}" WHERE id = ANY($1::uuid[])`,
    [ids],
  )) as { id: string; revision: number }[];
  return new Map(rows.map(({ id, revision }) => [id, revision]));
};

/** Records to come, with the fields that no two may have alike. */
export interface Incoming {
  readonly table: string;
  readonly unique: readonly string[];
  /** A withdrawn record makes room for another. */
  readonly freedByWithdrawal: boolean;
}

/** Ids to come whose unique fields another record here has, with the id of that record. */
export const recordsAlike = async (
  records: Records,
  { table, unique, freedByWithdrawal }: Incoming,
  coming: readonly Row[],
): Promise<Map<string, string>> => {
  const same = unique.map((name) => `t."${columnName(name)}" = r."${columnName(name)}"`);
  if (freedByWithdrawal) same.push(standingSql('t'), standingSql('r'));
  const given = coming.map((record) => ({
    id: record['id'],
    withdrawn_at: record['withdrawnAt'],
    ...Object.fromEntries(unique.map((name) => [columnName(name), record[name]])),
  }));
  const rows = (await records.query(
    `SELECT r.id, t.id AS other FROM json_populate_recordset(${rowType(table)}, $1::json) r
     JOIN "${table}" t ON ${same.join(' AND ')} AND t.id <> r.id`,
    [JSON.stringify(given)],
  )) as { id: string; other: string }[];
  return new Map(rows.map(({ id, other }) => [id, other]));
};

/** The last version of each of a person's own loci. */
export const lastLocusVersions = async (
  records: Records,
  ids: readonly string[],
): Promise<Map<string, number>> => {
  const rows = (await records.query(
    `SELECT own_locus_id AS id, max(version) AS version FROM own_locus_version
     WHERE own_locus_id = ANY($1::uuid[]) GROUP BY own_locus_id`,
    [ids],
  )) as { id: string; version: number }[];
  return new Map(rows.map(({ id, version }) => [id, version]));
};

/** Keeps what the loci now say as their latest version. */
export const keepLocusVersions = (
  records: Records,
  ids: readonly string[],
  by: string,
): Promise<unknown> =>
  records.query(
    `INSERT INTO own_locus_version (own_locus_id, version, definition, by_name, at)
     SELECT id, (definition ->> 'version')::integer, definition, $2, now() FROM own_locus WHERE id = ANY($1::uuid[])
     ON CONFLICT DO NOTHING`,
    [ids, by],
  );

/** Adds versions of score sheets, in the names of their columns, where they are not there yet. */
export const addSheetVersions = (records: Records, versions: readonly Row[]): Promise<unknown> =>
  records.query(
    `INSERT INTO score_sheet_version (sheet_id, version, from_age_days, to_age_days, lines, faults, deductions)
     SELECT r.sheet_id, r.version, r.from_age_days, r.to_age_days, r.lines, r.faults, r.deductions
     FROM json_to_recordset($1::json) AS r(sheet_id uuid, version integer, from_age_days integer, to_age_days integer,
       lines jsonb, faults jsonb, deductions jsonb)
     ON CONFLICT DO NOTHING`,
    [JSON.stringify(versions)],
  );
