import type { EntityManager } from 'typeorm';
import type { NewRecord } from '../stock/bulk-insert.js';
import { addSheetVersions, keepLocusVersions, lastLocusVersions } from '../stock/shared-rows.js';
import type { SharedKind } from './share-fields.js';
import type { SharedRecord } from './share-record.js';
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
  const last = await lastLocusVersions(
    manager,
    records.map(({ id }) => id),
  );
  return records.map((record) => ({
    ...record,
    definition: {
      ...(record['definition'] as object),
      version: (last.get(record.id) ?? 0) + 1,
    },
  }));
};

/** What of the records just written stands in tables of their own. */
export const writeApart = async (
  manager: EntityManager,
  kind: SharedKind,
  records: readonly SharedRecord[],
  by: string,
): Promise<void> => {
  if (records.length === 0) return;
  if (kind.group === 'ownLoci')
    await keepLocusVersions(
      manager,
      records.map(({ id }) => id),
      by,
    );
  if (kind.group !== 'scoreSheets') return;
  const versions = records.flatMap((record) =>
    (record['versions'] as SharedSheetVersion[]).map(
      ({ version, fromAgeDays, toAgeDays, lines, faults, deductions }) => ({
        ...{ sheet_id: record.id, version, lines, faults, deductions },
        ...{ from_age_days: fromAgeDays, to_age_days: toAgeDays },
      }),
    ),
  );
  await addSheetVersions(manager, versions);
};
