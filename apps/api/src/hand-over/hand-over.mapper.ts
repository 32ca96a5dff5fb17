import type { HandOverRow } from '../stock/rows/hand-over.entity.js';
import { toWithdrawal } from '../shapes/history.model.js';
import { HandOverSide, HandOverState } from './hand-over.enums.js';
import type { HandOverModel } from './hand-over.model.js';

/** How far a hand-over is, from what each side wrote. One that was taken back before it moved did not happen, whatever was answered meanwhile. */
export const stateOf = (row: HandOverRow): HandOverState => {
  if (row.endedOn !== null) return HandOverState.ENDED;
  if (row.movedOn !== null)
    return row.returnSaidOn === null ? HandOverState.MOVED : HandOverState.RETURNING;
  if (row.withdrawnAt !== null) return HandOverState.TAKEN_BACK;
  if (row.answer === null) return HandOverState.OFFERED;
  return row.answer === 'declined' ? HandOverState.DECLINED : HandOverState.AGREED;
};

const sideOf = ({ fromId, toId }: HandOverRow, me: string): HandOverSide => {
  if (fromId === me) return HandOverSide.GIVER;
  return toId === me ? HandOverSide.RECEIVER : HandOverSide.NEITHER;
};

/** @param me whose records whoever asks keeps */
export const toHandOver = (row: HandOverRow, me: string): HandOverModel => ({
  id: row.id,
  revision: row.revision,
  withdrawn: toWithdrawal(row),
  groupId: row.groupId,
  fishId: row.fishId,
  fromId: row.fromId,
  // Before they have answered, that there is somebody of that name is not told.
  toId: row.answer === null && row.fromId === me ? null : row.toId,
  requestId: row.requestId,
  kind: row.kind,
  state: stateOf(row),
  side: sideOf(row, me),
  toName: row.toName,
  offeredOn: row.offeredOn,
  backOn: row.backOn,
  word: row.word,
  healthNote: row.healthNote,
  laterSpawnsAgreed: row.laterSpawns && row.movedOn !== null,
  laterSpawnsSeen: row.laterSpawns,
  withScores: row.scores,
  withPhotos: row.photos,
  withNotes: row.notes,
  tag: row.tag,
  sex: row.sex,
  hatchDate: row.hatchDate,
  lineCode: row.lineCode,
  answeredOn: row.answeredOn,
  answerWord: row.answerWord,
  quarantineUntil: row.quarantineUntil,
  movedOn: row.movedOn,
  returnAs: row.returnAs,
  returnSaidOn: row.returnSaidOn,
  returnWord: row.returnWord,
  endedOn: row.endedOn,
  endedAs: row.endedAs,
});
