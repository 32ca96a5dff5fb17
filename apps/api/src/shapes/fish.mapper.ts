import { toWithdrawal } from './history.model.js';
import type { FishRow } from '../stock/rows/fish.entity.js';
import type { FishModel } from './fish.model.js';
import { isInUse } from '../stock/fish-place.js';

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
  personId: row.personId,
  lineId: row.lineId,
  spawnId: row.spawnId,
  swimsWithId: row.swimsWithId,
});
