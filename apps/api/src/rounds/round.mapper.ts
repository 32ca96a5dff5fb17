import { toPairing } from '../pairing/pairing.mapper.js';
import { toWithdrawal } from '../shapes/history.model.js';
import type { RoundPairWithPlan } from '../stock/round-rows.js';
import type { RoundRow } from '../stock/rows/round.entity.js';
import type { RoundModel, RoundPairModel } from './round.model.js';

export const toRound = (row: RoundRow): RoundModel => ({
  id: row.id,
  revision: row.revision,
  withdrawn: toWithdrawal(row),
  purposeVersion: row.purposeVersion,
  plannedOn: row.plannedOn,
  kinshipLimit: row.kinshipLimit,
  expectedWorth: row.expectedWorth,
  expectedKinship: row.expectedKinship,
  expectedInbreeding: row.expectedInbreeding,
  note: row.note,
  learnt: row.learnt,
  lineId: row.lineId,
  personId: row.personId,
});

export const toRoundPair = (row: RoundPairWithPlan): RoundPairModel => ({
  pairing: toPairing(row.pairing),
  expectedWorth: row.expectedWorth,
  expectedInbreeding: row.expectedInbreeding,
});
