import { isSettled, mergeParts, type Part, replacing, standingText } from './part.js';

/** A record by its parts: what is changed together is one part. A part that a place was not given is missing, which says nothing of it. */
export type MergedRecord = Readonly<Record<string, Part>>;

/** Texts of a record's parts, as one place shows them. */
export type Texts = Readonly<Record<string, string>>;

/** An install, and the count of its changes with this one. Each count of an install is used for one set of changes only. */
export interface OwnCount {
  readonly install: string;
  readonly count: number;
}

const stampOf = ({ install, count }: OwnCount) => ({ [install]: count });

/**
 * The record after a person here left it as `now`; it was last seen as `before`. Parts that are new or differ are new versions, made in
 * the knowledge of all that stood. The same record comes back where nothing differs.
 */
export const changedHere = (
  record: MergedRecord,
  before: Texts,
  now: Texts,
  own: OwnCount,
): MergedRecord => {
  const changed = Object.keys(now).filter((name) => now[name] !== before[name]);
  if (changed.length === 0) return record;
  const parts = changed.map((name) => [
    name,
    replacing(record[name] ?? [], now[name]!, stampOf(own)),
  ]);
  return { ...record, ...(Object.fromEntries(parts) as MergedRecord) };
};

/** What two places hold of a record. In any order, any number of times, the same comes out. */
export const mergeRecords = (a: MergedRecord, b: MergedRecord): MergedRecord => {
  const names = [...new Set([...Object.keys(a), ...Object.keys(b)])].sort();
  return Object.fromEntries(names.map((name) => [name, mergeParts(a[name] ?? [], b[name] ?? [])]));
};

/** The texts to show: what was shown before as long as it stands. */
export const standingTexts = (record: MergedRecord, before: Texts): Texts =>
  Object.fromEntries(
    Object.entries(record).flatMap(([name, part]) => {
      const text = standingText(part, before[name]);
      return text === undefined ? [] : [[name, text]];
    }),
  );

/** Names of the parts that say different things in different places. */
export const unsettledParts = (record: MergedRecord): string[] =>
  Object.keys(record).filter((name) => !isSettled(record[name]!));

/**
 * The record after a person here decided what one of its parts is, be it one of its versions or another text. The decision replaces all
 * versions that were seen, wherever it arrives.
 */
export const decided = (
  record: MergedRecord,
  name: string,
  text: string,
  own: OwnCount,
): MergedRecord => ({ ...record, [name]: replacing(record[name] ?? [], text, stampOf(own)) });
