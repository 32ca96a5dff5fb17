import { toWithdrawal } from '../shapes/history.model.js';
import type { VesselRow, VesselStayRow } from '../stock/rows/vessel.entity.js';
import type { VesselModel, VesselStayModel } from './vessel.model.js';

export const toVessel = (row: VesselRow): VesselModel => ({
  id: row.id,
  revision: row.revision,
  withdrawn: toWithdrawal(row),
  code: row.code,
  kind: row.kind,
  litres: row.litres,
  rack: row.rack,
  shelf: row.shelf,
  position: row.position,
  note: row.note,
  personId: row.personId,
});

export const toStay = (row: VesselStayRow): VesselStayModel => ({
  id: row.id,
  cameAt: row.cameAt,
  leftAt: row.leftAt,
  company: row.company,
  byName: row.byName,
  vesselId: row.vesselId,
  fishId: row.fishId,
  spawnId: row.spawnId,
});
