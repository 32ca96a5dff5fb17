import type { EntityManager } from 'typeorm';
import { fieldError } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { type EntryChange, ReceivedEntryRow } from './rows/received-entry.entity.js';
import type { EntryKind } from '../database/entry-kind.js';

export interface SentEntry {
  /** The sender's own UUID; absent when the sender keeps no entries. */
  readonly id: string | null | undefined;
  readonly kind: EntryKind;
  readonly person: SignedInPerson;
}

interface EntrySteps<Answer> {
  apply(): Promise<{ answer: Answer; recordIds: string[] }>;
  /** What is answered when the entry had been applied before: the records as they are now. */
  again(recordIds: string[]): Promise<Answer>;
}

/**
 * Days that the record of an arrived entry stands. An entry sent again after that is still applied once: records carry
 * ids of the sender's own, and decisions the revision they were made on. What ends is the undoing by the entry's id.
 */
export const DAYS_KEPT = 400;

/** A few at a time, whenever one arrives: the table stays as long as the window, and no sender waits for it. */
const letGoOfOld = (m: EntityManager, personId: string): Promise<unknown> =>
  m.query(
    `DELETE FROM received_entry WHERE id IN (
       SELECT id FROM received_entry WHERE person_id = $1 AND at < now() - make_interval(days => $2)
       ORDER BY at LIMIT 20 FOR UPDATE SKIP LOCKED)`,
    [personId, DAYS_KEPT],
  );

const claim = async (m: EntityManager, entry: SentEntry): Promise<boolean> => {
  // A second sender of the same entry waits here until the first has committed or given up.
  const claimed = (await m.query(
    `INSERT INTO received_entry (id, person_id, kind) VALUES ($1, $2, $3)
     ON CONFLICT (id) DO NOTHING RETURNING id`,
    [entry.id, entry.person.id, entry.kind],
  )) as unknown[];
  return claimed.length > 0;
};

/** As it arrived before; `null` for an id under which somebody else's did, of which whoever asks knows nothing. */
const knownEntry = async (m: EntityManager, entry: SentEntry): Promise<ReceivedEntryRow | null> => {
  const known = await m.findOneBy(ReceivedEntryRow, { id: entry.id! });
  if (known === null) return null;
  if (known.personId === entry.person.id && known.kind === entry.kind) return known;
  throw fieldError({
    field: 'entryId',
    message: `The entry ${known.id} was received before as something else: give a new entry an id of its own.`,
  });
};

/** History rows of this very transaction carry its start as their time. */
const changesOfThisTransaction = (m: EntityManager, recordIds: string[]): Promise<EntryChange[]> =>
  m.query(
    `SELECT record_kind AS kind, record_id AS id, revision FROM record_history
     WHERE record_id = ANY($1::uuid[]) AND at = now() ORDER BY sequence`,
    [recordIds],
  );

/**
 * Applies an entry in the caller's transaction, or finds that it was applied: an entry sent again after a lost answer
 * changes nothing. A refused entry leaves no trace and may be sent again.
 */
export const onceAnEntry = async <Answer>(
  m: EntityManager,
  entry: SentEntry,
  steps: EntrySteps<Answer>,
): Promise<Answer> => {
  if (entry.id === null || entry.id === undefined) return (await steps.apply()).answer;
  if (!(await claim(m, entry))) {
    const known = await knownEntry(m, entry);
    // Another's id was guessed: answered as one that was never sent.
    return known === null ? (await steps.apply()).answer : steps.again(known.recordIds);
  }
  const { answer, recordIds } = await steps.apply();
  const changes = await changesOfThisTransaction(m, recordIds);
  await m.update(ReceivedEntryRow, { id: entry.id }, { recordIds, changes });
  await letGoOfOld(m, entry.person.id);
  return answer;
};
