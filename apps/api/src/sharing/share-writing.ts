import { findColumnProblems } from '@linewright/pedigree';
import type { EntityManager } from 'typeorm';
import { RequestError } from '../errors/request-error.js';
import { insertRecords, tellMany, updateRecords } from '../stock/bulk-insert.js';
import { taggedParentage } from '../stock/pedigree-rows.js';
import { meetPeople } from '../stock/people-rows.js';
import { revisionsOf } from '../stock/shared-rows.js';
import { rowsOf, writeApart } from './share-apart.js';
import { type SharedKind, sharedKinds } from './share-fields.js';
import type { ShareFile } from './share-file.js';
import type { SharedRecord } from './share-record.js';
import { inOrder } from './share-json.js';
import type { SharePlanItem } from './share-plan.js';
import { keepStamps, type StampRow, stampRowOf, stampRows } from './share-stamps.js';

/** Changed records of one kind, and what of each is changed. */
export type Changed = Pick<SharePlanItem, 'record' | 'changes'>;

/** Writes changed records of one kind and tells each in the history. */
export const writeChanged = async (
  manager: EntityManager,
  kind: SharedKind,
  items: readonly Changed[],
  by: string,
  action: 'received' | 'corrected',
): Promise<void> => {
  if (items.length === 0) return;
  const records = items.map((item) => item.record);
  await updateRecords(manager, kind.table, await rowsOf(manager, kind, records));
  const ids = records.map(({ id }) => id);
  const revisionOf = await revisionsOf(manager, kind.table, ids);
  const told = items.map(({ record, changes }) => ({
    id: record.id,
    revision: revisionOf.get(record.id) ?? 1,
    changes: Object.fromEntries(
      changes.map(({ field, before, after }) => [field, { before, after }]),
    ),
  }));
  await tellMany(manager, kind.kind, told, by, action);
  await writeApart(manager, kind, records, by);
};

const writeAdded = async (
  manager: EntityManager,
  kind: SharedKind,
  records: readonly SharedRecord[],
  by: string,
): Promise<void> => {
  const rows = await rowsOf(manager, kind, records);
  await insertRecords(manager, kind.table, kind.kind, rows, by, 'received');
  await writeApart(manager, kind, records, by);
};

/** Writes what a plan adds and changes, in the order of the kinds. */
export const writePlan = async (
  manager: EntityManager,
  file: ShareFile,
  items: readonly SharePlanItem[],
  by: string,
): Promise<void> => {
  const people = new Map([...file.people, file.sender].map((k) => [k.id, k]));
  await meetPeople(manager, [...people.values()]);
  for (const kind of sharedKinds) {
    const own = items.filter((item) => item.kind === kind);
    const added = own.filter((item) => item.outcome === 'added').map((item) => item.record);
    await writeAdded(manager, kind, added, by);
    const updated = own.filter((item) => item.outcome === 'updated');
    await writeChanged(manager, kind, updated, by, 'received');
  }
};

const isNew = (row: StampRow, kept: StampRow | undefined): boolean =>
  kept === undefined ||
  JSON.stringify(inOrder([row.versions, row.apart, row.seen])) !==
    JSON.stringify(inOrder([kept.versions, kept.apart, kept.seen]));

/** Rows that say something else than what is kept. */
export const newStamps = (
  rows: readonly StampRow[],
  kept: ReadonlyMap<string, StampRow>,
): StampRow[] => rows.filter((row) => isNew(row, kept.get(row.recordId)));

/** Keeps the versions of what was met, where they are not kept already. */
export const keepMet = async (
  manager: EntityManager,
  items: readonly SharePlanItem[],
): Promise<void> => {
  const rows = items.flatMap(({ kind, record, met, apart }) =>
    met === null ? [] : [stampRowOf(kind, record, met, apart)],
  );
  const kept = await stampRows(
    manager,
    rows.map(({ recordId }) => recordId),
  );
  await keepStamps(manager, newStamps(rows, kept));
};

/**
 * Changes from both sides, each sound by itself, can close a circle together.
 *
 * @throws RequestError `SHARE_INVALID`
 */
export const expectSoundPedigree = async (manager: EntityManager): Promise<void> => {
  const rows = await taggedParentage(manager);
  const tags = new Map(rows.map((row) => [row.id, row.tag]));
  const problem = findColumnProblems({
    ids: rows.map((row) => row.id),
    sire: rows.map((row) => row.sireId),
    dam: rows.map((row) => row.damId),
  }).find(({ code }) => code === 'PEDIGREE_CYCLE' || code === 'PEDIGREE_SAME_PARENTS');
  if (problem === undefined) return;
  const chain = [...problem.others, problem.id].map((id) => `"${tags.get(id) ?? id}"`);
  const message =
    problem.code === 'PEDIGREE_CYCLE'
      ? `with this file a fish would be its own ancestor: ${chain.join(' is a young of ')}`
      : `with this file a fish would have one parent as both sire and dam: ${chain.join(' and ')}`;
  throw new RequestError(
    'SHARE_INVALID',
    `Nothing was taken in: ${message}. Settle with your partner which parent is right.`,
  );
};
