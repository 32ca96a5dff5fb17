import type { RecordKind } from '../database/record-kind.js';
import type { ReceivedEntryModel } from './entry.model.js';
import type { ReceivedEntryRow } from '../stock/rows/received-entry.entity.js';

export const toReceivedEntry = (row: ReceivedEntryRow): ReceivedEntryModel => ({
  id: row.id,
  kind: row.kind,
  at: row.at,
  changes: row.changes.map(({ kind, id, revision }) => ({
    recordKind: kind as RecordKind,
    recordId: id,
    revision,
  })),
  undoneBy: row.undoneBy,
});
