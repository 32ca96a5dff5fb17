import { toWithdrawal } from '../history/history.model.js';
import type { FishRow } from './fish.entity.js';
import type { FishModel } from './fish.model.js';

/** Fish that a next pairing may use: decided for, and alive here. */
export const isInUse = (row: { disposition: string; withdrawnAt: Date | null }): boolean =>
  row.withdrawnAt === null && (row.disposition === 'keeper' || row.disposition === 'hold');

export const toFish = (row: FishRow): FishModel => ({
  id: row.id,
  tag: row.tag,
  name: row.name,
  sex: row.sex,
  hatchDate: row.hatchDate,
  disposition: row.disposition,
  dispositionDate: row.dispositionDate,
  dispositionReason: row.dispositionReason,
  inUse: isInUse(row),
  note: row.note,
  origin: row.origin,
  declaredUnrelated: row.declaredUnrelated ?? false,
  createdAt: row.createdAt,
  revision: row.revision,
  withdrawn: toWithdrawal(row),
  keeperId: row.keeperId,
  lineId: row.lineId,
  spawnId: row.spawnId,
});
