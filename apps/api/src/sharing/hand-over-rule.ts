import type { KeptOut } from './share-planning.js';
import type { SharePlanItem } from './share-plan.js';

/** What the receiver of a fish writes of a hand-over; the rest is the giver's. */
const OF_RECEIVER: ReadonlySet<string> = new Set([
  ...['answer', 'answeredOn', 'answerWord', 'quarantineUntil', 'newTag'],
  ...['returnAs', 'returnSaidOn', 'returnWord'],
]);

const NOT_THEIRS = 'the other side of the hand-over';

/** Whether a change of a hand-over is that person's to make: what the one of the two writes, the other never does. */
const isTheirs = ({ record, local, outcome, changes }: SharePlanItem, person: string): boolean => {
  if (outcome === 'added' || local === null) return record['fromId'] === person;
  const fields = changes.map(({ field }) => field);
  if (local['fromId'] === person) return fields.every((field) => !OF_RECEIVER.has(field));
  if (local['toId'] !== person) return false;
  // Whoever got a fish for good says as well that it went on; that a loan is over, the lender alone.
  const gotIt = local['kind'] !== 'loan' && local['movedOn'] !== null;
  const wentOn = gotIt && record['endedAs'] === 'handed_on';
  return fields.every(
    (field) => OF_RECEIVER.has(field) || (wentOn && (field === 'endedAs' || field === 'endedOn')),
  );
};

/**
 * Of a file, lets in only those changes of hand-overs that are its sender's; what else is kept out, `whyOut` says.
 *
 * @param sender whose install signed the file, when it is paired with this one; `null`: no hand-over is taken
 */
export const handOversOf =
  (sender: string | null, whyOut: KeptOut): KeptOut =>
  (item) => {
    if (item.kind.group !== 'handOvers') return whyOut(item);
    return sender !== null && isTheirs(item, sender) ? null : NOT_THEIRS;
  };
