import type { KeptOut } from './share-planning.js';
import type { SharePlanItem } from './share-plan.js';
import type { SharedRecord } from './share-record.js';

/** What the receiver of a fish writes of a hand-over; the rest is the giver's. */
const OF_RECEIVER: ReadonlySet<string> = new Set([
  ...['answer', 'answeredOn', 'answerWord', 'quarantineUntil', 'newTag'],
  ...['returnAs', 'returnSaidOn', 'returnWord'],
]);

const NOT_THEIRS = 'the other side of the hand-over';

/** Whether a hand-over says that it was answered, or what follows from an answer. */
const isAnswered = (record: SharedRecord): boolean =>
  [...OF_RECEIVER, 'movedOn', 'turn', 'endedAs', 'endedOn'].some(
    (field) => (record[field] ?? null) !== null,
  );

/** Who may say what of hand-overs in a file. */
export interface HandOverVoices {
  /** Whose install signed the file, when it is paired with this one; `null`: no hand-over is taken. */
  readonly sender: string | null;
  /** People whose install's key is known here, whoever is here among them: nobody else answers for them. */
  readonly known: ReadonlySet<string>;
}

/** Whether a change of a hand-over is that person's to make: what the one of the two writes, the other never does. */
const isTheirs = (
  { record, local, outcome, changes }: SharePlanItem,
  person: string,
  known: HandOverVoices['known'],
): boolean => {
  if (outcome === 'added' || local === null)
    return (
      record['fromId'] === person && !(known.has(record['toId'] as string) && isAnswered(record))
    );
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
 * Of a file, lets in only those changes of hand-overs that are its sender's; what else is kept out, `whyOut` says. One that is new here
 * comes as an offer: an answer that the giver's file brings with it counts only where no key of the receiver is known.
 */
export const handOversOf =
  ({ sender, known }: HandOverVoices, whyOut: KeptOut): KeptOut =>
  (item) => {
    if (item.kind.group !== 'handOvers') return whyOut(item);
    return sender !== null && isTheirs(item, sender, known) ? null : NOT_THEIRS;
  };
