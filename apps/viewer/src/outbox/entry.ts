/** What can be entered at the bench; each is one mutation of the API. */
export type EntryKind =
  'decision' | 'sex' | 'scores' | 'sheet_look' | 'new_fish' | 'loss' | 'class_count' | 'undo';

/**
 * `waiting`: to be sent, or sent with no answer yet. `conflict`: the record was changed meanwhile, the keeper
 * chooses. `refused`: cannot be applied as it is; kept until the keeper lets go of it.
 */
export type EntryState = 'waiting' | 'conflict' | 'refused';

/** What a fish looked like, before an entry or on the server. */
export interface FishState {
  readonly sex: string;
  readonly disposition: string;
  readonly dispositionDate: string | null;
  readonly dispositionReason: string | null;
}

/** The server's version of a fish at the time of a conflict. */
export interface TheirFish extends FishState {
  readonly revision: number;
  readonly withdrawnReason: string | null;
}

export interface NewEntry {
  readonly kind: EntryKind;
  readonly spawnId: string;
  /** The fish spoken of, or the spawn when it speaks of fry without a record. */
  readonly subject: string;
  /** In words, for lists: "Q26-04-01: cull, bent spine". */
  readonly label: string;
  /** The input of the mutation, without the entry's id. */
  readonly input: Readonly<Record<string, unknown>>;
  /** The fish before this entry, so that an undo can be shown before the server has done it. */
  readonly before?: FishState;
}

export interface Entry extends NewEntry {
  readonly id: string;
  readonly keeperId: string;
  /** Entries made with one tap (a cull and its class) share it, and are undone together. */
  readonly group: string;
  /** Place in the order of entering, across reloads and tabs. */
  readonly sequence: number;
  readonly madeAt: string;
  /** Time zone of the device then: its days are read there, wherever it is sent from. Kept by older versions without. */
  readonly zone?: string;
  /** Above 0 once it may have reached the server. */
  readonly attempts: number;
  readonly state: EntryState;
  readonly problem?: {
    readonly code: string;
    readonly message: string;
    /** Names of the fields that the server could not take. */
    readonly fields?: readonly string[];
  };
  readonly theirs?: TheirFish;
}

/** An entry that the server has; kept for a while so that it can be undone. */
export interface SentEntry extends Entry {
  readonly sentAt: string;
  /** Revision of the subject that it made, where it has one. */
  readonly revisionAfter: number | null;
  readonly undone: boolean;
  /** The records as last read for its spawn show it. */
  readonly seen?: boolean;
}

export const isUndoOf = (entry: Entry, id: string): boolean =>
  entry.kind === 'undo' && entry.input['undoes'] === id;

/** Entries that the server takes only on the state of the fish that the keeper saw. */
export const isRevised = (entry: NewEntry): boolean =>
  entry.kind === 'decision' || entry.kind === 'sex' || entry.kind === 'undo';

/** Whether `later` has to wait while `earlier` is unsettled. */
export const holds = (earlier: Entry, later: Entry): boolean =>
  earlier.sequence < later.sequence &&
  earlier.subject === later.subject &&
  (earlier.kind === 'new_fish' || (isRevised(earlier) && isRevised(later)));

/** A version 4 UUID; `crypto.randomUUID` is missing where the page came over plain HTTP. */
export function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x40;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
}
