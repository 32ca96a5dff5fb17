import { plural } from '../wording/figures.js';
import { dispositionWord, sexWord, type Disposition } from '../wording/words.js';
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

interface Decision {
  readonly disposition: Disposition;
  readonly on: string | null;
  readonly reason?: string | null;
}

const decisionText = ({ disposition, on, reason }: Decision): string =>
  [dispositionWord[disposition], on === null ? '' : `on ${on}`, reason ?? '']
    .filter(Boolean)
    .join(', ');

/** The entry beside what the server has now. */
export function bothSides(entry: Entry, theirs: TheirFish): Side[] {
  if (entry.kind === 'sex') {
    const { sex } = entry.input;
    return [{ what: 'sex', mine: sex == null ? '' : sexWord[sex], theirs: sexWord[theirs.sex] }];
  }
  const mine = entry.kind === 'decision' ? decisionText(entry.input) : entry.label;
  const { disposition, dispositionDate: on, dispositionReason: reason } = theirs;
  return [{ what: 'decision', mine, theirs: decisionText({ disposition, on, reason }) }];
}
