import type { FishClaimRow } from '../stock/rows/fish-claim.entity.js';
import type { FishClaimModel, FishClaimState } from './claim.model.js';

/** How far a claim is, from what each side wrote: once confirmed, the records are one, whatever the claimant said meanwhile. */
export const stateOfClaim = ({
  answer,
  withdrawnAt,
}: Pick<FishClaimRow, 'answer' | 'withdrawnAt'>): FishClaimState => {
  if (answer === 'confirmed') return 'confirmed';
  if (withdrawnAt !== null) return 'taken_back';
  return answer ?? 'open';
};

/** The day on which it came to its end, or `null`. */
export const endOfClaim = (row: FishClaimRow): string | null =>
  stateOfClaim(row) === 'taken_back'
    ? (row.withdrawnAt?.toISOString().slice(0, 10) ?? null)
    : row.answeredOn;

/** @param me whose records whoever asks keeps */
export const toClaim = (row: FishClaimRow, me: string): FishClaimModel => ({
  ...{ id: row.id, fishId: row.fishId, tag: row.tag, asTag: row.asTag, word: row.word },
  ...{ byId: row.byId, toId: row.toId, mine: row.byId === me },
  ...{ state: stateOfClaim(row), claimedOn: row.claimedOn },
  ...{ answeredOn: endOfClaim(row), answerWord: row.answerWord },
});
