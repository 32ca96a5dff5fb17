import type { EntityManager } from 'typeorm';
import type { NewRecord } from '../database/bulk-insert.js';
import type { SharedKind } from './share-fields.js';
import type { SharedRecord } from './share-file.js';
import type { SharedSheetVersion } from './share-json.js';

/** Records as their tables take them: without what is kept apart, and loci under the next number of this install. */
export const rowsOf = async (
  manager: EntityManager,
  kind: SharedKind,
  records: readonly SharedRecord[],
): Promise<NewRecord[]> => {
  if (kind.group === 'scoreSheets')
    return records.map((record) => {
      const row: NewRecord & { versions?: unknown } = { ...record };
      delete row.versions;
      return row;
    });
  if (kind.group !== 'ownLoci' || records.length === 0) return [...records];
  const standing: { id: string; version: number }[] = await manager.query(
    `SELECT own_locus_id AS id, max(version) AS version FROM own_locus_version
     WHERE own_locus_id = ANY($1::uuid[]) GROUP BY own_locus_id`,
    [records.map(({ id }) => id)],
  );
  const last = new Map(standing.map(({ id, version }) => [id, version]));
  return records.map((record) => ({
    ...record,
    definition: {
      ...(record['definition'] as object),
      version: (last.get(record.id) ?? 0) + 1,
    },
  }));
};

const SHEET_VERSIONS = `
  INSERT INTO score_sheet_version (sheet_id, version, from_age_days, to_age_days, lines, faults, deductions)
  SELECT r.sheet_id, r.version, r.from_age_days, r.to_age_days, r.lines, r.faults, r.deductions
  FROM json_to_recordset($1::json) AS r(sheet_id uuid, version integer, from_age_days integer, to_age_days integer,
    lines jsonb, faults jsonb, deductions jsonb)
  ON CONFLICT DO NOTHING`;

const LOCUS_VERSIONS = `
  INSERT INTO own_locus_version (own_locus_id, version, definition, by_name, at)
  SELECT id, (definition ->> 'version')::integer, definition, $2, now() FROM own_locus WHERE id = ANY($1::uuid[])
  ON CONFLICT DO NOTHING`;

/** What of the records just written stands in tables of their own. */
export const writeApart = async (
  manager: EntityManager,
  kind: SharedKind,
  records: readonly SharedRecord[],
  by: string,
): Promise<void> => {
  if (records.length === 0) return;
  if (kind.group === 'ownLoci')
    await manager.query(LOCUS_VERSIONS, [records.map(({ id }) => id), by]);
  if (kind.group !== 'scoreSheets') return;
  const versions = records.flatMap((record) =>
    (record['versions'] as SharedSheetVersion[]).map(
      ({ version, fromAgeDays, toAgeDays, lines, faults, deductions }) => ({
        ...{ sheet_id: record.id, version, lines, faults, deductions },
        ...{ from_age_days: fromAgeDays, to_age_days: toAgeDays },
      }),
    ),
  );
  await manager.query(SHEET_VERSIONS, [JSON.stringify(versions)]);
};
