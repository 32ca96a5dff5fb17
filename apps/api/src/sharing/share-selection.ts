import type { EntityManager } from 'typeorm';
import { columnName } from '../database/bulk-insert.js';
import { notFound } from '../errors/request-error.js';
import { type SharedKind, sharedKinds, type ShareGroup } from './share-fields.js';
import { canonicalRecord, type SharedRecord } from './share-file.js';

/** The fish of a line, the parents of its spawns, and every ancestor and planned partner that their spawns name. */
const FISH_IDS = `
  WITH RECURSIVE wanted(id) AS (
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
  SELECT id FROM wanted`;

const LINES = `line_id = $1 OR line_id IN (SELECT line_id FROM fish WHERE id = ANY($2)) OR line_id IN (SELECT line_id FROM spawn WHERE id = ANY($3))`;
const OF_LINE = `spawn_id IN (SELECT id FROM spawn WHERE line_id = $1)`;
const SHEETS = `SELECT sheet_id FROM sheet_scoring WHERE fish_id = ANY($2)`;

/** For each group, which records of its table go out: $1 the line, $2 the fish, $3 the spawns. */
const chosen: Readonly<Record<ShareGroup, string>> = {
  lines: `id = $1 OR id IN (SELECT line_id FROM fish WHERE id = ANY($2)) OR id IN (SELECT line_id FROM spawn WHERE id = ANY($3))`,
  traits: `id IN (SELECT trait_id FROM score WHERE fish_id = ANY($2)) OR id IN (
    SELECT (l ->> 'traitId')::uuid FROM score_sheet_version v CROSS JOIN jsonb_array_elements(v.lines) l
    WHERE v.sheet_id IN (${SHEETS}))`,
  scoreSheets: `id IN (${SHEETS})`,
  // All those that a record in the file names.
  ownLoci: `locus_id IN (
    SELECT locus_id FROM genotype WHERE fish_id = ANY($2) UNION SELECT locus_id FROM phenotype WHERE fish_id = ANY($2)
    UNION SELECT unnest(locus_ids) FROM class_count WHERE ${OF_LINE}
    UNION SELECT locus_id FROM spawn_loss WHERE ${OF_LINE} UNION SELECT locus_id FROM locus_setting WHERE ${LINES})`,
  locusSettings: LINES,
  fish: `id = ANY($2)`,
  pairings: `sire_id = ANY($2) AND dam_id = ANY($2)`,
  spawns: `id = ANY($3)`,
  spawnEvents: OF_LINE,
  spawnCounts: OF_LINE,
  spawnLosses: OF_LINE,
  classCounts: OF_LINE,
  scores: `fish_id = ANY($2)`,
  sheetScorings: `fish_id = ANY($2)`,
  genotypes: `fish_id = ANY($2)`,
  phenotypes: `fish_id = ANY($2)`,
  careEntries: OF_LINE,
  waterReadings: OF_LINE,
};

/** A table's row, as JSON has it, in the field names of the file. */
export const fromTable = (kind: SharedKind, row: Readonly<Record<string, unknown>>): SharedRecord =>
  canonicalRecord(
    kind,
    Object.fromEntries([
      ['id', row['id']],
      ...kind.fields.map(
        ({ name }) => [name, row[name in kind.apart ? name : columnName(name)]] as const,
      ),
    ]),
  );

/** A record of the table `t` as JSON, with what is kept apart from it. */
export const rowOf = (kind: SharedKind): string =>
  Object.entries(kind.apart).reduce(
    (row, [name, sql]) => `${row} || jsonb_build_object('${name}', ${sql})`,
    'to_jsonb(t)',
  );

/** All records that one line needs to stand by itself in another install. */
export const selectLine = async (
  manager: EntityManager,
  lineId: string,
): Promise<Record<ShareGroup, SharedRecord[]>> => {
  const found = (await manager.query(`SELECT 1 FROM line WHERE id = $1`, [lineId])) as unknown[];
  if (found.length === 0) throw notFound('line', lineId);
  const ids = (rows: { id: string }[]): string[] => rows.map((row) => row.id);
  const fish = ids(await manager.query(FISH_IDS, [lineId]));
  const spawns = ids(
    await manager.query(
      `SELECT id FROM spawn WHERE line_id = $1 OR id IN (SELECT spawn_id FROM fish WHERE id = ANY($2::uuid[]))`,
      [lineId, fish],
    ),
  );
  const records = {} as Record<ShareGroup, SharedRecord[]>;
  for (const kind of sharedKinds) {
    const rows: { row: Record<string, unknown> }[] = await manager.query(
      `WITH given AS (SELECT $1::uuid AS line, $2::uuid[] AS fish, $3::uuid[] AS spawns)
       SELECT ${rowOf(kind)} AS row FROM "${kind.table}" t, given WHERE ${chosen[kind.group]
         .replaceAll('$1', 'given.line')
         .replaceAll('$2', 'given.fish')
         .replaceAll('$3', 'given.spawns')} ORDER BY t.id`,
      [lineId, fish, spawns],
    );
    records[kind.group] = rows.map(({ row }) => fromTable(kind, row));
  }
  return records;
};
