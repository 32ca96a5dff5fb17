import { type MergedRecord, mergeRecords } from '@linewright/merging';
import type { FieldChangeValue } from '../stock/history.service.js';
import type { SharedKind } from './share-fields.js';
import { contentHash } from './share-file.js';
import type { SharedRecord } from './share-record.js';
import { isStructure } from './share-json.js';
import { partsOf, recordOf, textsOf } from './share-parts.js';
import { shownTexts, unsettledOf } from './share-stamps.js';

export const ShareOutcome = {
  ADDED: 'added',
  UNCHANGED: 'unchanged',
  UPDATED: 'updated',
  CONFLICT: 'conflict',
  KEPT_LOCAL: 'kept_local',
} as const;
export type ShareOutcome = (typeof ShareOutcome)[keyof typeof ShareOutcome];

/** What this install and a partner last agreed on for a record. */
export interface Agreement {
  readonly hash: string;
  /** When the file was made that brought the agreement, or when it was first sent. */
  readonly at: Date;
}

export interface Incoming {
  readonly record: SharedRecord;
  /** What the sender last agreed on for it, if anything. */
  readonly agreedHash: string | undefined;
  readonly sentAt: Date;
}

export interface SharePlanItem {
  readonly kind: SharedKind;
  /** As it will stand here. */
  readonly record: SharedRecord;
  /** As the file has it. */
  readonly said: SharedRecord;
  readonly local: SharedRecord | null;
  readonly outcome: ShareOutcome;
  /** What taking it in changes here. */
  readonly changes: readonly FieldChangeValue[];
  /** Where the file and what stands here differ. */
  readonly differences: readonly FieldChangeValue[];
  /** Its versions after taking it in, where the file tells them. */
  readonly met: MergedRecord | null;
  /** Parts that were changed on both sides, by their names: what is shown of them here stays until a person decides. */
  readonly apart: readonly string[];
  /** A different record here holds what must be unique: the id of that record. */
  readonly clashesWith: string | null;
  /** What it rests on and is left out with. */
  readonly leftOutWith: string | null;
}

/** A structure differs in its parts: the whole of it twice tells nobody what changed. */
const changesWithin = (field: string, before: unknown, after: unknown): FieldChangeValue[] =>
  isStructure(before) && isStructure(after)
    ? [...new Set([...Object.keys(before), ...Object.keys(after)])].map((key) => ({
        field: `${field} ${key}`,
        before: before[key] ?? null,
        after: after[key] ?? null,
      }))
    : [{ field, before, after }];

export const changesOf = (
  kind: SharedKind,
  local: SharedRecord | null,
  incoming: SharedRecord,
): FieldChangeValue[] =>
  kind.fields
    .flatMap(({ name }) => changesWithin(name, local?.[name] ?? null, incoming[name] ?? null))
    .filter(({ before, after }) => JSON.stringify(before) !== JSON.stringify(after));

/**
 * An older file says nothing of fields that came later: there, what stands here is taken for what it says. A field that follows
 * from the others is made from them when the record is new or those others change.
 */
export const asTold = (
  kind: SharedKind,
  record: SharedRecord,
  local: SharedRecord | null,
  version: number,
): SharedRecord => {
  const unsaid = kind.fields.filter(({ since }) => (since ?? 1) > version);
  const said = unsaid.flatMap(({ name, usual }): [string, unknown][] => {
    const made = usual?.(record);
    if (usual !== undefined && (local === null || usual(local) !== made)) return [[name, made]];
    return local === null ? [] : [[name, local[name]]];
  });
  return { ...record, ...Object.fromEntries(said) };
};

/**
 * What becomes of one incoming record beside the one recorded here.
 *
 * A side has changed a record when its content differs from what the two last agreed on. Changed there only: theirs is
 * taken. Changed here only: ours stays. Changed on both sides, or never agreed on: a conflict, and ours stays until a
 * person decides. A record never changes its person by a file.
 */
export const outcomeOf = (
  kind: SharedKind,
  local: SharedRecord | null,
  agreement: Agreement | undefined,
  { record, agreedHash, sentAt }: Incoming,
): ShareOutcome => {
  if (local === null) return 'added';
  const [ours, theirs] = [contentHash(kind, local), contentHash(kind, record)];
  if (ours === theirs) return 'unchanged';
  if (record['personId'] !== local['personId']) return 'conflict';
  // Theirs was made from exactly what stands here, even if word of the agreement never came back.
  if (agreedHash === ours) return 'updated';
  if (agreement === undefined) return 'conflict';
  if (theirs === agreement.hash) return 'kept_local';
  if (ours !== agreement.hash) return 'conflict';
  // An older file read again after a newer one must not turn the record back.
  return agreedHash === agreement.hash || sentAt >= agreement.at ? 'updated' : 'kept_local';
};

/** Of parts that a file was not given, what stands here is taken for what it says. */
export const withOurs = (
  kind: SharedKind,
  record: SharedRecord,
  local: SharedRecord | null,
  missing: readonly string[],
): SharedRecord => {
  if (local === null || missing.length === 0) return record;
  const fields = partsOf(kind).flatMap(({ name, fields: of }) =>
    missing.includes(name) ? of : [],
  );
  return { ...record, ...Object.fromEntries(fields.map((name) => [name, local[name]])) };
};

/** What one side has of a record. */
export interface Side {
  readonly record: SharedRecord;
  readonly state: MergedRecord;
}

export type Met = Pick<SharePlanItem, 'record' | 'outcome' | 'met' | 'apart'>;

/**
 * What becomes of an incoming record whose versions are told beside the one recorded here. Parts changed on one side only meet without
 * a question; of those changed on both, ours is shown until a person decides. A record never changes its person by a file, but where
 * whoever sends it may say so.
 */
export const meeting = (
  kind: SharedKind,
  ours: Side | null,
  theirs: Side,
  mayPass = false,
): Met => {
  if (ours === null)
    return {
      ...{ record: theirs.record, outcome: 'added', met: theirs.state },
      apart: unsettledOf(theirs.state),
    };
  if (theirs.record['personId'] !== ours.record['personId'] && !mayPass)
    return { record: theirs.record, outcome: 'conflict', met: null, apart: [] };
  const met = mergeRecords(ours.state, theirs.state);
  const before = textsOf(kind, ours.record);
  // Of a part that neither side was given, what is shown stays.
  const shown = { ...before, ...shownTexts(met, before) };
  const same = (texts: Readonly<Record<string, string>>): boolean =>
    Object.entries(texts).every(([name, text]) => before[name] === text);
  const outcome = !same(shown)
    ? 'updated'
    : same(textsOf(kind, theirs.record))
      ? 'unchanged'
      : 'kept_local';
  return {
    ...{ record: recordOf(kind, ours.record.id, shown), outcome, met },
    apart: unsettledOf(met),
  };
};
