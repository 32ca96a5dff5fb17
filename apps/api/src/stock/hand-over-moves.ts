import type { EntityManager } from 'typeorm';
import { codeOfLine, gotBy, loanOf, turnsOf } from './hand-over-rows.js';
import type { Doing } from './history.service.js';
import type { RecordStore } from './record-store.js';
import { fishRecord, handOverRecord } from './record-types.js';
import type { FishRow } from './rows/fish.entity.js';
import type { HandOverEnd, HandOverKind, HandOverRow } from './rows/hand-over.entity.js';

/** From whom to whom, and how. */
export interface Going {
  readonly fromId: string;
  readonly toId: string | null;
  readonly kind: HandOverKind;
}

const gone: Partial<Record<FishRow['disposition'], string>> = {
  died: 'died',
  culled: 'was culled',
  elsewhere: 'is on record as an ancestor only',
};

/**
 * Why a fish cannot go from one person to another, after its tag; `null` when it can. Whoever hands it over has it and keeps its record;
 * one that is on loan goes to whoever borrowed it, for good, and one that somebody else's record is goes back to them.
 */
export const whyItStays = (
  fish: Pick<FishRow, 'withdrawnAt' | 'disposition' | 'personId' | 'swimsWithId'>,
  { fromId, toId, kind }: Going,
  loan: Pick<HandOverRow, 'fromId' | 'toId'> | null,
): string | null => {
  if (fish.withdrawnAt !== null) return 'was withdrawn';
  const end = gone[fish.disposition];
  if (end !== undefined) return end;
  if (loan !== null && loan.fromId === fromId) {
    if (kind === 'loan') return 'is on loan already: it has to come back first';
    if (loan.toId !== toId) return 'is on loan: it has to come back first';
    return fish.personId === fromId ? null : 'is on record with somebody else';
  }
  if (fish.swimsWithId !== fromId) return 'does not swim with whoever hands it over';
  if (fish.personId === fromId) return null;
  if (loan !== null) return 'is on loan: only whose record it is can hand it on';
  return fish.personId === toId && kind !== 'loan'
    ? null
    : 'is on record with somebody else: only they can hand it on';
};

/** Who did it on which day, for the history. */
export interface Done {
  readonly day: string;
  readonly by: string;
  /** `null` where the program itself carries out what came from elsewhere. */
  readonly accountId: string | null;
}

const doing = (action: string, { accountId }: Pick<Done, 'accountId'>): Doing => ({
  action,
  ...(accountId !== null && { byAccountId: accountId }),
});

/** Notes on a hand-over what was done or said. */
export const noteHandOver = (
  m: EntityManager,
  records: RecordStore,
  row: HandOverRow,
  changes: Partial<HandOverRow>,
  action: string,
  done: Pick<Done, 'by' | 'accountId'>,
): Promise<HandOverRow> =>
  records.correct<HandOverRow>(
    m,
    handOverRecord,
    row.id,
    undefined,
    changes,
    done.by,
    doing(action, done),
  );

/** Ends a hand-over: the fish went back, on, or stays for good. */
export const endHandOver = (
  m: EntityManager,
  records: RecordStore,
  row: HandOverRow,
  endedAs: HandOverEnd,
  done: Done,
): Promise<HandOverRow> =>
  noteHandOver(
    m,
    records,
    row,
    { endedAs, endedOn: done.day },
    endedAs === 'died' ? 'died on loan' : endedAs.replace('_', ' '),
    done,
  );

/** One that was passed on is kept by whoever it went to. */
const dispositionThere = ({ disposition }: FishRow): FishRow['disposition'] =>
  disposition === 'placed' ? 'keeper' : disposition;

/** What a move makes of the fish's record; its line and parents stay. */
const placeOf = (fish: FishRow, { kind, toId }: HandOverRow, tag?: string): Partial<FishRow> =>
  kind === 'loan'
    ? { swimsWithId: toId }
    : {
        ...{ personId: toId!, swimsWithId: toId, disposition: dispositionThere(fish) },
        ...(tag !== undefined && { tag }),
      };

/** Puts the fish to where a hand-over took it: a lent one swims with the borrower, another is their record from then on. */
export const placeFish = async (
  m: EntityManager,
  records: RecordStore,
  row: HandOverRow,
  done: Done,
  tag?: string,
): Promise<FishRow> => {
  const fish = await records.lock(m, fishRecord, row.fishId);
  const what = row.kind === 'loan' ? 'lent' : 'handed over';
  return records.correct<FishRow>(
    m,
    fishRecord,
    fish.id,
    undefined,
    placeOf(fish, row, tag),
    done.by,
    doing(`${what} to ${row.toName}`, done),
  );
};

/**
 * Carries out what both confirmed: ends what had brought the fish to the giver, and puts it to the receiver. In the caller's transaction;
 * that it can go was asked before, with the fish locked.
 *
 * @param more what else is noted of the hand-over in the same change
 */
export const moveFish = async (
  m: EntityManager,
  records: RecordStore,
  row: HandOverRow,
  done: Done,
  more: Partial<HandOverRow> = {},
  tag?: string,
): Promise<HandOverRow> => {
  const loan = await loanOf(m, row.fishId);
  if (loan !== null) await endHandOver(m, records, loan, 'kept', done);
  for (const before of await gotBy(m, row.fishId, row.fromId))
    if (row.kind !== 'loan') await endHandOver(m, records, before, 'handed_on', done);
  const turn = (await turnsOf(m, row.fishId)) + 1;
  await placeFish(m, records, row, done, tag);
  const moved = { ...more, movedOn: done.day, turn, applied: true };
  return noteHandOver(m, records, row, moved, 'accepted', done);
};

/** What an offer keeps of the fish as it is. */
export const asOffered = async (
  m: EntityManager,
  { tag, sex, hatchDate, lineId }: FishRow,
): Promise<Pick<HandOverRow, 'tag' | 'sex' | 'hatchDate' | 'lineId' | 'lineCode'>> => ({
  ...{ tag, sex, hatchDate, lineId },
  lineCode: await codeOfLine(m, lineId),
});
