import { LOOK_ON_SHEET, UNDO_ENTRY } from '../api/entries.js';
import { CORRECT_FISH, CREATE_FISH, DECIDE_FISH, RECORD_SCORES } from '../api/fish.js';
import { graphql, type VariablesOf } from '../api/graphql.js';
import { RECORD_CLASS_COUNT, RECORD_SPAWN_LOSS } from '../api/spawns.js';
import type { Disposition, Sex } from '../wording/words.js';

/** What can be entered at the bench: the schema's list, as devices keep it. */
export type EntryKind = Lowercase<ReturnType<typeof graphql.scalar<'EntryKind'>>>;

/** Each kind is one mutation of the API. */
export const entryOperations = {
  decision: DECIDE_FISH,
  sex: CORRECT_FISH,
  scores: RECORD_SCORES,
  sheet_look: LOOK_ON_SHEET,
  new_fish: CREATE_FISH,
  loss: RECORD_SPAWN_LOSS,
  class_count: RECORD_CLASS_COUNT,
  undo: UNDO_ENTRY,
} as const satisfies Record<EntryKind, unknown>;

/** The input of the mutation, without the entry's own id: that is the outbox's. */
export type EntryInput<Kind extends EntryKind> = Readonly<
  Omit<VariablesOf<(typeof entryOperations)[Kind]>['input'], 'entryId'>
>;

/**
 * `waiting`: to be sent, or sent with no answer yet. `conflict`: the record was changed meanwhile, the person
 * chooses. `refused`: cannot be applied as it is; kept until the person lets go of it.
 */
export type EntryState = 'waiting' | 'conflict' | 'refused';

/** What a fish looked like, before an entry or on the server. */
export interface FishState {
  readonly sex: Sex;
  readonly disposition: Disposition;
  readonly dispositionDate: string | null;
  readonly dispositionReason: string | null;
}

/** The server's version of a fish at the time of a conflict. */
export interface TheirFish extends FishState {
  readonly revision: number;
  readonly withdrawnReason: string | null;
}

interface EntryFacts {
  readonly spawnId: string;
  /** The fish spoken of, or the spawn when it speaks of fry without a record. */
  readonly subject: string;
  /** In words, for lists: "Q26-04-01: cull, bent spine". */
  readonly label: string;
  /** The fish before this entry, so that an undo can be shown before the server has done it. */
  readonly before?: FishState;
}

interface EntryOfKind<Kind extends EntryKind> extends EntryFacts {
  readonly kind: Kind;
  readonly input: EntryInput<Kind>;
}

export type NewEntry<Kinds extends EntryKind = EntryKind> = {
  [Kind in Kinds]: EntryOfKind<Kind>;
}[Kinds];

interface EntryCourse {
  readonly id: string;
  /** Whose entry it is; kept on devices under this name since before people were called people. */
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

export type Entry<Kinds extends EntryKind = EntryKind> = NewEntry<Kinds> & EntryCourse;

/** An entry before the device has given it its place. */
export type EntryToKeep = NewEntry & Omit<EntryCourse, 'sequence'>;

/** An entry that the server has; kept for a while so that it can be undone. */
export type SentEntry = Entry & {
  readonly sentAt: string;
  /** Revision of the subject that it made, where it has one. */
  readonly revisionAfter: number | null;
  readonly undone: boolean;
  /** The records as last read for its spawn show it. */
  readonly seen?: boolean;
};

export const isUndoOf = (entry: Entry, id: string): boolean =>
  entry.kind === 'undo' && entry.input.undoes === id;

/** Entries that the server takes only on the state of the fish that the person saw. */
export const isRevised = (entry: NewEntry): boolean =>
  entry.kind === 'decision' || entry.kind === 'sex' || entry.kind === 'undo';

/** The state of the fish that an entry was made on; null for those that need none. */
export const revisionOf = (entry: NewEntry): number | null =>
  entry.kind === 'decision' || entry.kind === 'sex' ? (entry.input.revision ?? null) : null;

/** The same entry, made on another state of the fish. */
export function onRevision<Some extends Entry>(entry: Some, revision: number): Some {
  if (entry.kind !== 'decision' && entry.kind !== 'sex') return entry;
  return { ...entry, input: { ...entry.input, revision } };
}

/** What a person can change of a refused entry before it is sent again. */
export type Mended =
  | { readonly field: 'tag' | 'on' | 'scoredOn' | 'countedOn'; readonly value: string }
  | { readonly field: 'locus'; readonly value: null };

/** The day that an entry speaks of, and the name of its field; null where it has none. */
export function dayOf(
  entry: NewEntry,
): { field: 'on' | 'scoredOn' | 'countedOn'; day: string } | null {
  switch (entry.kind) {
    case 'decision':
    case 'loss':
      return { field: 'on', day: entry.input.on };
    case 'scores':
    case 'sheet_look':
      return { field: 'scoredOn', day: entry.input.scoredOn };
    case 'class_count':
      return { field: 'countedOn', day: entry.input.countedOn };
    case 'sex':
    case 'new_fish':
    case 'undo':
      return null;
  }
}

/** The entry with what was mended; a change that its kind has no field for leaves it as it is. */
export function mended(entry: Entry, { field, value }: Mended): Entry {
  if (field === 'locus') {
    if (entry.kind !== 'loss') return entry;
    return { ...entry, input: { ...entry.input, locusId: null, phenotype: null } };
  }
  if (field === 'tag') {
    if (entry.kind !== 'new_fish') return entry;
    return { ...entry, input: { ...entry.input, tag: value } };
  }
  if (dayOf(entry)?.field !== field) return entry;
  switch (entry.kind) {
    case 'decision':
      return { ...entry, input: { ...entry.input, on: value } };
    case 'loss':
      return { ...entry, input: { ...entry.input, on: value } };
    case 'scores':
      return { ...entry, input: { ...entry.input, scoredOn: value } };
    case 'sheet_look':
      return { ...entry, input: { ...entry.input, scoredOn: value } };
    case 'class_count':
      return { ...entry, input: { ...entry.input, countedOn: value } };
    default:
      return entry;
  }
}

/** Whether `later` has to wait while `earlier` is unsettled. */
export const holds = (earlier: Entry, later: Entry): boolean =>
  earlier.sequence < later.sequence &&
  earlier.subject === later.subject &&
  (earlier.kind === 'new_fish' || (isRevised(earlier) && isRevised(later)));
