import type { ShareFile } from './share-file.js';
import type { KeptOut } from './share-planning.js';
import type { SharePlanItem } from './share-plan.js';

/** What whoever recorded the tag writes of a claim. */
const OF_RECORDER: ReadonlySet<string> = new Set(['answer', 'answeredOn', 'answerWord']);

/** What the claimant may still write of a claim that was made. */
const OF_CLAIMANT: ReadonlySet<string> = new Set(['word', 'withdrawnAt', 'withdrawnReason']);

const NOT_THEIRS = 'the other side of the claim';

/** Who may say what of claims in a file. */
export interface ClaimVoices {
  /** Whose install signed the file, when it is paired with this one; `null`: no claim is taken. */
  readonly sender: string | null;
  /** Whose install this is. */
  readonly here: string | null;
}

/** Whether a change of a claim is that person's to make: new ones come from the claimant, to whoever is here, and unanswered. */
const isTheirs = (
  { record, local, outcome, changes }: SharePlanItem,
  person: string,
  here: string | null,
): boolean => {
  if (outcome === 'added' || local === null)
    return (
      record['byId'] === person &&
      record['toId'] === here &&
      [...OF_RECORDER].every((field) => (record[field] ?? null) === null)
    );
  const may = local['toId'] === person ? OF_RECORDER : OF_CLAIMANT;
  if (person !== local['toId'] && person !== local['byId']) return false;
  return changes.every(({ field }) => may.has(field));
};

/** Fish that the sender of a file claims as their own: what stands for them here comes with the claim, whatever else is let in. */
const claimedAs = ({ records }: ShareFile, { sender, here }: ClaimVoices): Set<unknown> =>
  new Set(
    records.fishClaims
      .filter(({ byId, toId }) => sender !== null && byId === sender && toId === here)
      .map(({ asFishId }) => asFishId),
  );

/**
 * Of a file, lets in only those changes of claims that are its sender's, and with a claim the sender's own record of the fish;
 * what else is kept out, `whyOut` says.
 */
export const claimsOf = (file: ShareFile, voices: ClaimVoices, whyOut: KeptOut): KeptOut => {
  const claimed = claimedAs(file, voices);
  const { sender, here } = voices;
  return (item) => {
    const { kind, record, local } = item;
    if (kind.group === 'fishClaims')
      return sender !== null && isTheirs(item, sender, here) ? null : NOT_THEIRS;
    const isOwn =
      kind.group === 'fish' &&
      claimed.has(record.id) &&
      record['personId'] === sender &&
      (local ?? record)['personId'] === sender;
    return isOwn ? null : whyOut(item);
  };
};
