import type { DocumentNode } from 'graphql';
import { stringifyDocument } from 'urql';
import { announceSignedOut } from '../api/client.js';
import { FISH_NOW, LOOK_ON_SHEET, UNDO_ENTRY } from '../api/entries.js';
import { CORRECT_FISH, CREATE_FISH, DECIDE_FISH, RECORD_SCORES } from '../api/fish.js';
import { RECORD_CLASS_COUNT, RECORD_SPAWN_LOSS } from '../api/spawns.js';
import { zoneHeader } from '../clock/clock.js';
import type { Entry, EntryKind, TheirFish } from './entry.js';
import type { Outcome } from './sender.js';

const operations: Record<EntryKind, DocumentNode> = {
  decision: DECIDE_FISH,
  sex: CORRECT_FISH,
  scores: RECORD_SCORES,
  sheet_look: LOOK_ON_SHEET,
  new_fish: CREATE_FISH,
  loss: RECORD_SPAWN_LOSS,
  class_count: RECORD_CLASS_COUNT,
  undo: UNDO_ENTRY,
};

/** Longer than this and the line is taken for dead; the entry is sent again later, which does no harm. */
const PATIENCE = 20_000;

interface Answer {
  data?: Record<string, unknown> | null;
  errors?: { message: string; extensions?: { code?: unknown; fields?: { field?: unknown }[] } }[];
}

/** `null` when nothing that answers like the API was reached. */
async function post(
  document: DocumentNode,
  variables: object,
  { keeperId, zone }: Pick<Entry, 'keeperId' | 'zone'>,
): Promise<Answer | null> {
  try {
    const response = await fetch('/graphql', {
      method: 'POST',
      credentials: 'same-origin',
      headers: {
        'content-type': 'application/json',
        'linewright-keeper': keeperId,
        ...zoneHeader(zone),
      },
      body: JSON.stringify({ query: stringifyDocument(document), variables }),
      signal: AbortSignal.timeout(PATIENCE),
    });
    const answer: unknown = await response.json();
    return typeof answer === 'object' && answer !== null ? answer : null;
  } catch {
    return null;
  }
}

/** `null` when nothing answered; without `fish` when the entry speaks of something else (an undone count of fry). */
async function theirFish(entry: Entry): Promise<{ fish?: TheirFish } | null> {
  const answer = await post(FISH_NOW, { id: entry.subject }, entry);
  if (answer === null) return null;
  const fish = answer.data?.['fish'] as
    | (Omit<TheirFish, 'withdrawnReason'> & { withdrawn: { reason: string } | null })
    | null
    | undefined;
  if (fish === undefined || fish === null) return {};
  const { withdrawn, ...state } = fish;
  return { fish: { ...state, withdrawnReason: withdrawn?.reason ?? null } };
}

/** Someone else entered the very same: no one has to choose. */
function saysTheSame({ kind, input }: Entry, theirs: TheirFish): boolean {
  if (theirs.withdrawnReason !== null) return false;
  if (kind === 'sex') return theirs.sex === input['sex'];
  return (
    kind === 'decision' &&
    theirs.disposition === input['disposition'] &&
    theirs.dispositionDate === input['on'] &&
    theirs.dispositionReason === (input['reason'] ?? null)
  );
}

function revisionAfter(entry: Entry, data: Record<string, unknown>): number | null {
  const answer = Object.values(data)[0] as {
    revision?: number;
    changes?: { recordId: string; revision: number }[];
  };
  if (entry.kind === 'undo') {
    const change = answer.changes?.find((each) => each.recordId === entry.subject);
    return change?.revision ?? null;
  }
  return entry.kind === 'decision' || entry.kind === 'sex' ? (answer.revision ?? null) : null;
}

async function failed(
  entry: Entry,
  code: string,
  message: string,
  fields: readonly string[],
): Promise<Outcome> {
  switch (code) {
    case 'SIGN_IN_NEEDED':
    case 'OTHER_KEEPER':
      announceSignedOut();
      return { kind: 'signed_out' };
    case 'CONFLICT_REVISION': {
      const answer = await theirFish(entry);
      if (answer === null) return { kind: 'unanswered', message };
      const { fish: theirs } = answer;
      if (theirs === undefined) return { kind: 'conflict', code, message };
      const { revision } = theirs;
      if (saysTheSame(entry, theirs) && revision !== entry.input['revision'])
        return sendEntry({ ...entry, input: { ...entry.input, revision } });
      return { kind: 'conflict', code, message, theirs };
    }
    case 'TAG_TAKEN':
      return { kind: 'conflict', code, message };
    case 'DATABASE_AWAY':
      return { kind: 'unanswered', message };
    case 'INTERNAL':
      return { kind: 'fault', message };
    default:
      return { kind: 'refused', code, message, fields };
  }
}

/** Sends one entry as the mutation it is, and says what came of it. */
export async function sendEntry(entry: Entry): Promise<Outcome> {
  const input = { ...entry.input, entryId: entry.id };
  const answer = await post(operations[entry.kind], { input }, entry);
  if (answer === null)
    return {
      kind: 'unanswered',
      message:
        'Linewright does not answer. Check the connection and that it is running; the entry stays on this device and is sent again by itself.',
    };
  const error = answer.errors?.[0];
  if (error !== undefined) {
    const code = error.extensions?.code;
    const fields = (error.extensions?.fields ?? []).map(({ field }) => String(field));
    return failed(entry, typeof code === 'string' ? code : 'INTERNAL', error.message, fields);
  }
  if (answer.data == null)
    return {
      kind: 'unanswered',
      message:
        'The answer of the server was empty. The entry stays on this device; reload the page, then send it again.',
    };
  return { kind: 'applied', revisionAfter: revisionAfter(entry, answer.data) };
}
