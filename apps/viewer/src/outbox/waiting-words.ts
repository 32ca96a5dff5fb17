import { plural } from '../wording/figures.js';
import { dispositionWord, sexWord, type Disposition, type Sex } from '../wording/words.js';
import type { Entry, TheirFish } from './entry.js';
import type { OutboxState } from './outbox.js';

export const stoppedEntries = (state: OutboxState): Entry[] =>
  state.entries.filter((entry) => entry.state !== 'waiting');

/** "3 entries wait on this device", and why. */
export function waitingWords(state: OutboxState): { count: string; why: string } {
  const stopped = stoppedEntries(state).length;
  const waiting = state.entries.length - stopped;
  const counts = [
    waiting > 0 ? `${plural(waiting, 'entry waits', 'entries wait')} on this device` : '',
    stopped > 0 ? `${plural(stopped, 'entry needs', 'entries need')} you` : '',
  ].filter(Boolean);
  return { count: counts.join('; '), why: waiting > 0 ? whyWaiting(state) : '' };
}

function whyWaiting({ stopped, sending }: OutboxState): string {
  if (sending) return 'sending';
  switch (stopped) {
    case 'unanswered':
      return 'no connection: check the network; they are sent when it is back';
    case 'signed_out':
      return 'sign in, then they are sent';
    case 'fault':
      return 'the server failed; they are sent again by themselves';
    case 'device':
      return 'this device’s own storage does not answer: reload the page';
    default:
      return '';
  }
}

interface Side {
  readonly what: string;
  readonly mine: string;
  readonly theirs: string;
}

const decisionText = (disposition: unknown, on: unknown, reason: unknown): string =>
  [
    dispositionWord[disposition as Disposition],
    typeof on === 'string' ? `on ${on}` : '',
    typeof reason === 'string' ? reason : '',
  ]
    .filter(Boolean)
    .join(', ');

/** The entry beside what the server has now. */
export function bothSides(entry: Entry, theirs: TheirFish): Side[] {
  const { input } = entry;
  const decided = decisionText(
    theirs.disposition,
    theirs.dispositionDate,
    theirs.dispositionReason,
  );
  if (entry.kind === 'sex') {
    const mine = sexWord[input['sex'] as Sex];
    return [{ what: 'sex', mine, theirs: sexWord[theirs.sex as Sex] }];
  }
  if (entry.kind === 'undo') return [{ what: 'decision', mine: entry.label, theirs: decided }];
  const mine = decisionText(input['disposition'], input['on'], input['reason']);
  return [{ what: 'decision', mine, theirs: decided }];
}
