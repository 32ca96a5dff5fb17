import { type Part, unpack } from '@linewright/merging';
import { createHash } from 'node:crypto';
import type { RecordStampRow } from '../stock/rows/share-state.entity.js';
import type { SharedKind } from './share-fields.js';
import { canonicalRecord } from './share-file.js';
import type { SharedRecord } from './share-record.js';
import { keptVersions } from './share-former-parts.js';
import { partsOf, textsOf, valuesOf } from './share-parts.js';

/** One of the values that a part of a record was given in different places. */
export interface DifferenceVersion {
  /** Names it when it is chosen. */
  readonly key: string;
  readonly values: readonly { readonly field: string; readonly value: unknown }[];
  /** Whether it is the one shown here. */
  readonly here: boolean;
  /** Whose installs gave it, as far as they were told of. */
  readonly from: readonly string[];
}

/** A part of a record that was changed in several places at once. */
export interface Difference {
  /** The first of its fields. */
  readonly part: string;
  readonly versions: readonly DifferenceVersion[];
}

export const keyOf = (text: string): string =>
  createHash('sha256').update(text).digest('hex').slice(0, 16);

/** Installs whose own changes a version knows of and the others do not: one of them made it. */
const makersOf = (part: Part, text: string): string[] => {
  const most = (install: string, own: boolean): number =>
    part
      .filter((version) => (version.text === text) === own)
      .reduce((count, { stamp }) => Math.max(count, stamp[install] ?? 0), 0);
  const installs = new Set(part.flatMap(({ stamp }) => Object.keys(stamp)));
  return [...installs].filter((install) => most(install, true) > most(install, false));
};

/**
 * What of a record waits for a decision. A part that was changed here since its versions were kept is decided by that.
 *
 * @param nameOf whose an install is, where that was told
 */
export const differencesOf = (
  kind: SharedKind,
  row: RecordStampRow,
  here: SharedRecord,
  nameOf: ReadonlyMap<string, string>,
): Difference[] => {
  const then = textsOf(kind, canonicalRecord(kind, row.seen));
  const now = textsOf(kind, here);
  const state = unpack(keptVersions(kind, row.versions), then);
  const waiting = partsOf(kind).filter(
    ({ name }) => row.apart.includes(name) && now[name] === then[name],
  );
  return waiting.map((part): Difference => {
    const versions = state[part.name]!;
    const told = [...new Set(versions.map(({ text }) => text))].map((text) => ({
      key: keyOf(text),
      values: Object.entries(valuesOf(part, text)).map(([field, value]) => ({ field, value })),
      here: text === now[part.name],
      from: makersOf(versions, text).flatMap((id) => nameOf.get(id) ?? []),
    }));
    return { part: part.name, versions: told.sort((a, b) => Number(b.here) - Number(a.here)) };
  });
};
