import { toWithdrawal } from './history.model.js';
import type { LineRow } from '../stock/rows/line.entity.js';
import type { LineModel } from './line.model.js';

export const toLine = (row: LineRow): LineModel => ({
  id: row.id,
  code: row.code,
  name: row.name,
  goal: row.goal,
  revision: row.revision,
  personId: row.personId,
  withdrawn: toWithdrawal(row),
});
