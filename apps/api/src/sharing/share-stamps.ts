import {
  changedHere,
  type MergedRecord,
  type OwnCount,
  standingTexts,
  type Texts,
  unsettledParts,
  pack,
  type Packed,
  unpack,
} from '@linewright/merging';
import type { EntityManager } from 'typeorm';
import type { RecordKind } from '../database/record-kind.js';
import type { SharedKind } from './share-fields.js';
import { canonicalRecord, contentHash } from './share-file.js';
import type { SharedRecord } from './share-record.js';
import { keptVersions } from './share-former-parts.js';
import { textsOf } from './share-parts.js';
import { ownKeys } from './own-keys.js';

/** What is kept of a record's versions. */
export interface StampRow {
  readonly recordId: string;
  readonly recordKind: RecordKind;
  readonly versions: Packed;
  readonly seen: SharedRecord;
  readonly apart: readonly string[];
}

/** The number of the next set of changes of this install; held until the transaction ends. */
export const nextCount = async (manager: EntityManager): Promise<OwnCount> => {
  const { install } = await ownKeys(manager);
  const [row] = (await manager.query(
    'SELECT changes::text AS count FROM share_state WHERE id = 1',
  )) as { count: string }[];
  return { install, count: Number(row!.count) + 1 };
};

/** The same for a look that writes nothing. */
export const countToCome = async (manager: EntityManager): Promise<OwnCount> => {
  const [row] = (await manager.query(
    'SELECT install_id AS install, changes::text AS count FROM share_state WHERE id = 1',
  )) as { install: string | null; count: string }[];
  return { install: row?.install ?? 'here', count: Number(row?.count ?? 0) + 1 };
};

/** Notes that a count was used, or seen in a file of a copy of this install: it is not given out again. */
export const useCount = (manager: EntityManager, count: number): Promise<unknown> =>
  manager.query('UPDATE share_state SET changes = greatest(changes, $1) WHERE id = 1', [count]);

export const stampRows = async (
  manager: EntityManager,
  ids: readonly string[],
): Promise<Map<string, StampRow>> => {
  const rows = (await manager.query(
    `SELECT record_id AS "recordId", record_kind AS "recordKind", versions, seen, apart
     FROM record_stamp WHERE record_id = ANY($1::uuid[])`,
    [ids],
  )) as StampRow[];
  return new Map(rows.map((row) => [row.recordId, row]));
};

const BATCH = 5_000;

export const keepStamps = async (
  manager: EntityManager,
  rows: readonly StampRow[],
): Promise<void> => {
  if (rows.length > 0)
    await manager.query('UPDATE share_state SET stampings = stampings + 1 WHERE id = 1');
  for (let start = 0; start < rows.length; start += BATCH)
    await manager.query(
      `INSERT INTO record_stamp (record_id, record_kind, versions, seen, apart)
       SELECT r."recordId", r."recordKind", r.versions, r.seen, ARRAY(SELECT jsonb_array_elements_text(r.apart))
       FROM json_to_recordset($1::json) AS r("recordId" uuid, "recordKind" text, versions jsonb, seen jsonb, apart jsonb)
       ON CONFLICT (record_id) DO UPDATE SET versions = excluded.versions, seen = excluded.seen, apart = excluded.apart`,
      [JSON.stringify(rows.slice(start, start + BATCH))],
    );
};

/** A record's versions, and what of them is to be kept. */
export const stampRowOf = (
  kind: SharedKind,
  record: SharedRecord,
  state: MergedRecord,
  apart: readonly string[],
): StampRow => ({
  recordId: record.id,
  recordKind: kind.kind,
  versions: pack(state, textsOf(kind, record)),
  seen: record,
  apart,
});

/** What two installs agreed on by an older file stands in stamps as made by one that has the fingerprint for its id. */
const agreedInstall = (hash: string): OwnCount => ({
  install: hash.slice(0, 32).replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5'),
  count: 1,
});

const knows = (state: MergedRecord, { install }: OwnCount): boolean =>
  Object.values(state).some((part) => part.some(({ stamp }) => stamp[install] !== undefined));

/**
 * The versions of a record as it stands here, with what was changed since they were kept. Of one that never went out with its versions,
 * what was agreed on by an older file is known to both sides, and what differs from that was changed here.
 */
export const stateHere = (
  kind: SharedKind,
  record: SharedRecord,
  kept: StampRow | undefined,
  agreedHash: string | undefined,
  own: OwnCount,
): MergedRecord => {
  const now = textsOf(kind, record);
  const seen = kept === undefined ? {} : textsOf(kind, canonicalRecord(kind, kept.seen));
  const known = kept === undefined ? {} : unpack(keptVersions(kind, kept.versions), seen);
  const agreed = agreedHash === undefined ? null : agreedInstall(agreedHash);
  // Known already, it says nothing of a change made since: a record changed and changed back is a new version.
  if (agreed === null || knows(known, agreed)) return changedHere(known, seen, now, own);
  if (agreedHash === contentHash(kind, record)) return changedHere(known, seen, now, agreed);
  if (kept !== undefined) return changedHere(known, seen, now, own);
  return changedHere(changedHere({}, {}, now, agreed), {}, now, own);
};

/** The part that withdraws a record. */
const WITHDRAWN = 'withdrawnAt';

/** Withdrawn in several places is withdrawn: when and why first said stands, and nobody is asked. */
const isWithdrawn = (state: MergedRecord): boolean =>
  state[WITHDRAWN]?.every(({ text }) => (JSON.parse(text) as unknown[])[0] !== null) ?? false;

/** Parts of which a person has to decide. */
export const unsettledOf = (state: MergedRecord): string[] =>
  unsettledParts(state).filter((name) => name !== WITHDRAWN || !isWithdrawn(state));

/** What is shown of a record that met another's: what was shown as long as it stands. */
export const shownTexts = (state: MergedRecord, before: Texts): Texts => {
  const shown = standingTexts(state, before);
  const first = state[WITHDRAWN]?.[0];
  return first !== undefined && isWithdrawn(state) ? { ...shown, [WITHDRAWN]: first.text } : shown;
};
