import { stringifyDocument, type TypedDocumentNode } from 'urql';
import { announceSignedOut } from '../api/client.js';
import { FISH_NOW } from '../api/entries.js';
import type { ResultOf } from '../api/graphql.js';
import { zoneHeader } from '../clock/clock.js';
import { entryOperations, onRevision, revisionOf, type Entry, type TheirFish } from './entry.js';
import type { Outcome } from './sender.js';

/** Longer than this and the line is taken for dead; the entry is sent again later, which does no harm. */
const PATIENCE = 20_000;

interface Answer<Data> {
  data?: Data | null;
  errors?: { message: string; extensions?: { code?: unknown; fields?: { field?: unknown }[] } }[];
}

/** `null` when nothing that answers like the API was reached. */
async function post<Data, Variables extends object>(
  document: TypedDocumentNode<Data, Variables>,
  variables: Variables,
  { keeperId: personId, zone }: Pick<Entry, 'keeperId' | 'zone'>,
): Promise<Answer<Data> | null> {
  try {
    const response = await fetch('/graphql', {
      method: 'POST',
      credentials: 'same-origin',
      headers: {
        'content-type': 'application/json',
        'linewright-person': personId,
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
  const fish = answer.data?.fish;
  if (fish === undefined) return {};
  const { withdrawn, ...state } = fish;
  return { fish: { ...state, withdrawnReason: withdrawn?.reason ?? null } };
}

/** Someone else entered the very same: no one has to choose. */
function saysTheSame(entry: Entry, theirs: TheirFish): boolean {
  if (theirs.withdrawnReason !== null) return false;
  if (entry.kind === 'sex') return theirs.sex === entry.input.sex;
  return (
    entry.kind === 'decision' &&
    theirs.disposition === entry.input.disposition &&
    theirs.dispositionDate === entry.input.on &&
    theirs.dispositionReason === (entry.input.reason ?? null)
  );
}

/** What one of the mutations answers. */
type Applied = ResultOf<(typeof entryOperations)[Entry['kind']]>;

/** Revision of the subject after it, where the entry changes one. */
function revisionAfter(entry: Entry, data: Applied): number | null {
  if ('undoEntry' in data)
    return (
      data.undoEntry.changes.find(({ recordId }) => recordId === entry.subject)?.revision ?? null
    );
  if ('decideFish' in data) return data.decideFish.revision;
  return 'correctFish' in data ? data.correctFish.revision : null;
}

async function failed(
  entry: Entry,
  code: string,
  message: string,
  fields: readonly string[],
): Promise<Outcome> {
  switch (code) {
    case 'SIGN_IN_NEEDED':
    case 'OTHER_PERSON':
      announceSignedOut();
      return { kind: 'signed_out' };
    case 'CONFLICT_REVISION': {
      const answer = await theirFish(entry);
      if (answer === null) return { kind: 'unanswered', message };
      const { fish: theirs } = answer;
      if (theirs === undefined) return { kind: 'conflict', code, message };
      const { revision } = theirs;
      if (saysTheSame(entry, theirs) && revision !== revisionOf(entry))
        return sendEntry(onRevision(entry, revision));
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
  const operation = entryOperations[entry.kind] as TypedDocumentNode<Applied, { input: object }>;
  const answer = await post(operation, { input: { ...entry.input, entryId: entry.id } }, entry);
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
