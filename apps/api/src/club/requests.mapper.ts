import type { ClubRequestRow } from '../stock/rows/club.entity.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import type { ClubRequestModel } from './requests.model.js';

export const toRequest = (row: ClubRequestRow, by: SignedInPerson): ClubRequestModel => ({
  id: row.id,
  what: row.what,
  lineId: row.lineId,
  lineName: row.lineName,
  mine: row.fromId === by.keepsFor,
  words: row.words,
  askedAt: row.askedAt,
  state: row.state,
  answer: row.answer,
  endedAt: row.endedAt,
  fromId: row.fromId,
  toId: row.toId,
});
