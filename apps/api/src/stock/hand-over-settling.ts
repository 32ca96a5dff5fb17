import type { EntityManager } from 'typeorm';
import { type Done, moveFish, placeFish, whyItStays } from './hand-over-moves.js';
import { handOversById, loanOf, tagsTakenBy } from './hand-over-rows.js';
import type { RecordStore } from './record-store.js';
import { fishRecord, handOverRecord } from './record-types.js';
import type { FishRow } from './rows/fish.entity.js';
import { HandOverRow } from './rows/hand-over.entity.js';

/** A tag that the person does not use yet: the wanted one, or that with the first free number behind it. */
export const freeTag = async (
  m: EntityManager,
  personId: string,
  { id }: FishRow,
  wanted: string,
): Promise<string> => {
  for (let number = 1; ; number += 1) {
    const tag = number === 1 ? wanted : `${wanted.slice(0, 36)}-${number}`;
    if ((await tagsTakenBy(m, personId, [{ id, tag }])).size === 0) return tag;
  }
};

/** Accepted elsewhere what was offered here: it moves, unless it was taken back or cannot go any more; then the offer is withdrawn with the reason. */
const carryOut = async (
  m: EntityManager,
  records: RecordStore,
  row: HandOverRow,
  done: Done,
): Promise<boolean> => {
  const isOpen = row.answer === 'accepted' && row.movedOn === null && row.withdrawnAt === null;
  if (!isOpen) return false;
  const fish = await records.lock(m, fishRecord, row.fishId);
  const why = whyItStays(fish, row, await loanOf(m, row.fishId));
  if (why === null) {
    const wanted = row.newTag ?? fish.tag;
    const tag = row.kind === 'loan' ? undefined : await freeTag(m, row.toId!, fish, wanted);
    await moveFish(m, records, row, done, {}, tag);
  } else
    await records.withdraw<HandOverRow>(
      m,
      handOverRecord,
      row.id,
      `${row.tag} ${why}`,
      done.by,
      undefined,
      'could not move',
    );
  return true;
};

/**
 * Moved where it was offered: the record here says so as well, once, and only of what the receiver accepted: the giver's word alone moves
 * nothing. What was decided of the fish here since then stays.
 */
const follow = async (
  m: EntityManager,
  records: RecordStore,
  row: HandOverRow,
  done: Done,
): Promise<boolean> => {
  if (row.movedOn === null || row.answer !== 'accepted' || row.applied) return false;
  const fish = await records.lock(m, fishRecord, row.fishId);
  const isFromThem = fish.personId === row.fromId;
  if (isFromThem && row.endedOn === null) {
    const wanted = row.newTag ?? fish.tag;
    const tag = row.kind === 'loan' ? undefined : await freeTag(m, row.toId!, fish, wanted);
    await placeFish(m, records, row, done, tag);
  }
  await m.update(HandOverRow, { id: row.id }, { applied: true });
  return true;
};

/** Came back where its record is kept: it swims there, whether or not places are told in the file. */
const bringBack = async (
  m: EntityManager,
  records: RecordStore,
  row: HandOverRow,
  { by }: Done,
): Promise<boolean> => {
  if (row.kind !== 'loan' || row.endedAs !== 'came_back') return false;
  const fish = await records.lock(m, fishRecord, row.fishId);
  // A lent fish stays the lender's record: no other goes anywhere by their word.
  if (fish.personId !== row.fromId) return false;
  if (fish.swimsWithId !== row.toId || fish.withdrawnAt !== null) return false;
  const swimsWithId = row.fromId;
  const doing = 'came back from a loan';
  await records.correct<FishRow>(m, fishRecord, fish.id, undefined, { swimsWithId }, by, doing);
  return true;
};

/**
 * Does to the fish what hand-overs say that came in with a line: the install where a fish was offered says whether it moved, the other follows.
 * In the caller's transaction; in any order, and any number of times with the same outcome.
 *
 * @param ids hand-overs that are new or changed
 * @returns whether anything was done
 */
export const settleHandOvers = async (
  m: EntityManager,
  records: RecordStore,
  ids: readonly string[],
  done: Done,
): Promise<boolean> => {
  const rows = await handOversById(m, ids);
  // A fish goes from hand to hand in the order of its moves.
  rows.sort((a, b) => (a.turn ?? Infinity) - (b.turn ?? Infinity) || (a.id < b.id ? -1 : 1));
  let changed = false;
  for (const row of rows) {
    const moved = row.madeHere
      ? await carryOut(m, records, row, done)
      : await follow(m, records, row, done);
    const back = row.madeHere ? false : await bringBack(m, records, row, done);
    changed ||= moved || back;
  }
  return changed;
};
