import { toWithdrawal } from '../shapes/history.model.js';
import type { PairingRow } from '../stock/rows/pairing.entity.js';
import type { PairingModel } from './pairing.model.js';

export const toPairing = (row: PairingRow): PairingModel => ({
  id: row.id,
  state: row.state,
  plannedOn: row.plannedOn,
  reason: row.reason,
  note: row.note,
  revision: row.revision,
  withdrawn: toWithdrawal(row),
  personId: row.personId,
  sireId: row.sireId,
  damId: row.damId,
  makerId: row.makerId,
});
