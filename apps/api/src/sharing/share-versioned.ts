import type { OwnCount } from '@linewright/merging';
import type { EntityManager } from 'typeorm';
import { agreementsOn } from './share-agreements.js';
import { sharedKinds, type ShareGroup } from './share-fields.js';
import type { SharedRecord } from './share-record.js';
import {
  keepStamps,
  stampRowOf,
  stampRows,
  stateHere,
  unsettledOf,
  useCount,
} from './share-stamps.js';
import type { VersionedRecord } from './share-versions.js';
import { newStamps } from './share-writing.js';

/** Records of a line with their versions: what was changed here since they were kept is stamped and kept. */
export const versionedRecords = async (
  manager: EntityManager,
  records: Readonly<Record<ShareGroup, readonly SharedRecord[]>>,
  own: OwnCount,
): Promise<VersionedRecord[]> => {
  const ids = sharedKinds.flatMap(({ group }) => records[group].map(({ id }) => id));
  const [kept, agreed] = [await stampRows(manager, ids), await agreementsOn(manager, ids)];
  const versioned = sharedKinds.flatMap((kind) =>
    records[kind.group].map((record) => {
      const hash = agreed.get(record.id)?.hash;
      return { kind, record, state: stateHere(kind, record, kept.get(record.id), hash, own) };
    }),
  );
  const rows = newStamps(
    versioned.map(({ kind, record, state }) => stampRowOf(kind, record, state, unsettledOf(state))),
    kept,
  );
  await keepStamps(manager, rows);
  if (rows.length > 0) await useCount(manager, own.count);
  return versioned;
};

/** Ids of everybody whom records name. */
export const peopleIn = (
  records: Readonly<Record<ShareGroup, readonly SharedRecord[]>>,
): string[] => {
  const ids = sharedKinds.flatMap((kind) =>
    kind.fields
      .filter(({ pointsTo }) => pointsTo === 'people')
      .flatMap(({ name }) => records[kind.group].map((record) => record[name])),
  );
  return [...new Set(ids.filter((id) => id !== null))] as string[];
};
