import type { Entry, EntryToKeep, SentEntry } from './entry.js';

/** Sent entries kept for undoing, for each person. */
export const SENT_KEPT = 60;
/** Those that no reading has shown yet are kept beyond it, so that the bench goes on showing them; never more than this. */
const UNSEEN_KEPT = 2_000;

export type StoreErrorCode = 'DEVICE_FULL' | 'DEVICE_REFUSED';

/** The device could not keep an entry: the person has to know at once, because nothing else has it. */
export class StoreError extends Error {
  constructor(
    readonly code: StoreErrorCode,
    message: string,
  ) {
    super(message);
    this.name = 'StoreError';
  }
}

export interface Kept {
  /** In the order of entering. */
  readonly entries: readonly Entry[];
  /** Oldest first. */
  readonly sent: readonly SentEntry[];
}

/**
 * Where entries live until the server has them. Every method is one transaction: two tabs that change the same entry
 * do so one after the other, and a change is on the disk when the promise resolves.
 */
export interface OutboxStore {
  /** All of them or none. */
  add(entries: readonly EntryToKeep[]): Promise<Entry[]>;
  read(personId: string): Promise<Kept>;
  /** `change` gets the entry as it is now; `null` removes it. Answers what is kept, or `null`. */
  change(id: string, change: (entry: Entry) => Entry | null): Promise<Entry | null>;
  /** Several waiting entries of one person at once. */
  changeAll(personId: string, change: (entry: Entry) => Entry): Promise<void>;
  /** Moves an entry to the sent ones and marks what it undid. */
  settle(sent: SentEntry): Promise<void>;
  /** Sent entries that the records as kept on this device show. */
  markSeen(personId: string, ids: readonly string[]): Promise<void>;
  forgetSent(personId: string): Promise<void>;
}

/** Newest kept, oldest let go. */
export const trimSent = (sent: readonly SentEntry[]): SentEntry[] => {
  const inOrder = [...sent].sort((a, b) => a.sequence - b.sequence).slice(-UNSEEN_KEPT);
  return inOrder.filter(
    (entry, index) => entry.seen !== true || index >= inOrder.length - SENT_KEPT,
  );
};
