import type { EntityManager } from 'typeorm';
import { columnName } from '../stock/bulk-insert.js';
import { expectLines } from '../stock/line-rows.js';
import { fishWithLine, rowsWithLine, spawnsWithLine } from '../stock/shared-rows.js';
import { type SharedKind, sharedKinds, type ShareGroup } from './share-fields.js';
import { canonicalRecord } from './share-file.js';
import type { SharedRecord } from './share-record.js';

/** A table's row, as JSON has it, in the field names of its kind. */
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

/** All records that one line needs to stand by itself in another install. */
export const selectLine = async (
  manager: EntityManager,
  lineId: string,
): Promise<Record<ShareGroup, SharedRecord[]>> => {
  await expectLines(manager, [lineId]);
  const fish = await fishWithLine(manager, lineId);
  const spawns = await spawnsWithLine(manager, lineId, fish);
  const records = {} as Record<ShareGroup, SharedRecord[]>;
  for (const kind of sharedKinds) {
    const rows = await rowsWithLine(manager, kind, { lineId, fish, spawns });
    records[kind.group] = rows.map((row) => fromTable(kind, row));
  }
  return records;
};
