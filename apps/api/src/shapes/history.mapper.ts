import type { HistoryRow } from '../stock/rows/history.entity.js';
import type { RecordChangeModel } from './history.model.js';
import type { RecordKind } from '../database/record-kind.js';

export const changeText = (value: unknown): string | null => {
  if (value === null || value === undefined) return null;
  return typeof value === 'string' ? value : JSON.stringify(value);
};

export const toRecordChange = (row: HistoryRow): RecordChangeModel => ({
  id: row.sequence,
  recordKind: row.recordKind as RecordKind,
  recordId: row.recordId,
  revision: row.revision,
  at: row.at,
  by: row.byName,
  action: row.action,
  actId: row.actId,
  changes: Object.entries(row.changes).map(([field, change]) => ({
    field,
    before: changeText(change.before),
    after: changeText(change.after),
  })),
});
