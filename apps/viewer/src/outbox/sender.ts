import {
  holds,
  isRevised,
  isUndoOf,
  onRevision,
  revisionOf,
  type Entry,
  type TheirFish,
} from './entry.js';
import type { Kept, OutboxStore } from './store.js';

/** What came of sending one entry. */
export type Outcome =
  | { readonly kind: 'applied'; readonly revisionAfter: number | null }
  | {
      readonly kind: 'conflict' | 'refused';
      readonly code: string;
      readonly message: string;
      readonly theirs?: TheirFish;
      readonly fields?: readonly string[];
    }
  /** No answer, or one that says nothing about the entry: it may or may not have been applied. */
  | { readonly kind: 'unanswered'; readonly message: string }
  | { readonly kind: 'signed_out' }
  | { readonly kind: 'fault'; readonly message: string };

export type Stopped = 'sent' | 'unanswered' | 'signed_out' | 'fault' | 'device';

/** After this many faults of the server at one entry the others go first. */
const FAULTS_BORNE = 3;

export interface SenderParts {
  readonly store: OutboxStore;
  readonly send: (entry: Entry) => Promise<Outcome>;
  /** Runs the work while no other tab of this device sends. */
  readonly alone: <Result>(work: () => Promise<Result>) => Promise<Result>;
  readonly now: () => string;
  readonly changed: () => void;
}

function nextToSend(entries: readonly Entry[]): Entry | undefined {
  return entries.find(
    (entry) =>
      entry.state === 'waiting' &&
      !entries.some((earlier) => earlier.state !== 'waiting' && holds(earlier, entry)),
  );
}

/** Later entries were made on top of this one, so they expect the revision it made. */
function onTopOf(sent: Entry, revisionAfter: number): (entry: Entry) => Entry {
  const from = revisionOf(sent) ?? revisionAfter - 1;
  // An answer to a repeated entry shows the fish as it is now, perhaps with others' later changes: those stay unseen.
  const to = Math.min(revisionAfter, from + 1);
  return (entry) =>
    entry.subject === sent.subject && revisionOf(entry) === from ? onRevision(entry, to) : entry;
}

/** Entered in the moment between a sending and the screen's knowing of it: on top of what was sent all the same. */
const caughtUp = (entry: Entry, sent: Kept['sent']): Entry =>
  sent
    .filter((each) => isRevised(each) && each.sequence < entry.sequence)
    .reduce(
      (moved, { revisionAfter, ...each }) =>
        revisionAfter === null ? moved : onTopOf(each, revisionAfter)(moved),
      entry,
    );

async function settle(parts: SenderParts, entry: Entry, revisionAfter: number | null) {
  if (revisionAfter !== null && isRevised(entry)) {
    await parts.store.changeAll(entry.keeperId, onTopOf(entry, revisionAfter));
  }
  await parts.store.settle({ ...entry, sentAt: parts.now(), revisionAfter, undone: false });
}

async function stop(
  parts: SenderParts,
  entry: Entry,
  state: 'conflict' | 'refused',
  { code, message, theirs, fields }: Extract<Outcome, { code: string }>,
) {
  const { entries } = await parts.store.read(entry.keeperId);
  const undo = entries.find((each) => isUndoOf(each, entry.id));
  if (undo !== undefined) {
    // Taken back by the person while it was under way, and never applied: neither is needed.
    await parts.store.change(undo.id, () => null);
    await parts.store.change(entry.id, () => null);
    return;
  }
  await parts.store.change(entry.id, (each) => ({
    ...each,
    state,
    attempts: 0,
    problem: { code, message, ...(fields !== undefined && { fields }) },
    ...(theirs !== undefined && { theirs }),
  }));
}

async function sendOne(
  parts: SenderParts,
  next: Entry,
  sent: Kept['sent'],
): Promise<Stopped | 'next'> {
  const { store } = parts;
  // Taken back in another tab just now? Then there is nothing to send.
  const entry = await store.change(next.id, (each) =>
    each.state === 'waiting' ? { ...caughtUp(each, sent), attempts: each.attempts + 1 } : each,
  );
  if (entry === null || entry.state !== 'waiting') return 'next';
  const outcome = await parts.send(entry);
  switch (outcome.kind) {
    case 'applied':
      await settle(parts, entry, outcome.revisionAfter);
      return 'next';
    case 'conflict':
    case 'refused':
      await stop(parts, entry, outcome.kind, outcome);
      return 'next';
    case 'fault':
      if (entry.attempts < FAULTS_BORNE) return 'fault';
      await stop(parts, entry, 'refused', { ...outcome, kind: 'refused', code: 'INTERNAL' });
      return 'next';
    case 'unanswered':
    case 'signed_out':
      return outcome.kind;
  }
}

/**
 * Sends what waits, in order, one after the other. An entry that is refused or in conflict steps aside, and only what
 * was made on top of it waits with it. Answers why it stopped.
 */
export function sendWaiting(parts: SenderParts, personId: string): Promise<Stopped> {
  return parts.alone(async () => {
    for (;;) {
      const kept = await parts.store.read(personId);
      const next = nextToSend(kept.entries);
      if (next === undefined) return 'sent';
      const stopped = await sendOne(parts, next, kept.sent);
      parts.changed();
      if (stopped !== 'next') return stopped;
    }
  });
}
