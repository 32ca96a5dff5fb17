import fc from 'fast-check';
import { endHandOver, noteHandOver, whyItStays } from '../../apps/api/src/stock/hand-over-moves.js';
import { loanOf, openOffersOf } from '../../apps/api/src/stock/hand-over-rows.js';
import {
  fishClaimRecord,
  fishRecord,
  handOverRecord,
} from '../../apps/api/src/stock/record-types.js';
import type { FishClaimRow } from '../../apps/api/src/stock/rows/fish-claim.entity.js';
import type { FishRow } from '../../apps/api/src/stock/rows/fish.entity.js';
import type { HandOverKind, HandOverRow } from '../../apps/api/src/stock/rows/hand-over.entity.js';
import { handBareRecord, uniteFish, whyNotBare } from '../../apps/api/src/stock/unite-fish.js';
import type { FishRoom } from './fish-room.js';

/** One act of somebody in a history of chance: which of those that they may do now, and how. */
export interface Step {
  readonly act: keyof typeof acts | 'post' | 'take';
  readonly at: number;
  readonly which: number;
  readonly other: number;
}

const at = fc.integer({ min: 0, max: 2 });
const of = <Act extends Step['act']>(act: Act, weight: number) => ({
  weight,
  arbitrary: fc.record({ act: fc.constant(act), at, which: fc.nat(1_000), other: fc.nat(5) }),
});

let made = 0;
const newId = (): string => `00000000-0000-4000-9000-${String((made += 1)).padStart(12, '0')}`;

const handOvers = (room: FishRoom): HandOverRow[] =>
  room.all('handOvers') as unknown as HandOverRow[];
const claims = (room: FishRoom): FishClaimRow[] =>
  room.all('fishClaims') as unknown as FishClaimRow[];
const fish = (room: FishRoom): FishRow[] => room.all('fish') as unknown as FishRow[];
const picked = <One>(from: readonly One[], which: number): One | undefined =>
  from[which % Math.max(1, from.length)];
const isOpen = (row: Pick<FishClaimRow, 'answer' | 'withdrawnAt'>): boolean =>
  row.answer === null && row.withdrawnAt === null;

/** Fish that can be offered so now. */
const offerable = async (
  room: FishRoom,
  going: { fromId: string; toId: string; kind: HandOverKind },
): Promise<FishRow[]> => {
  const m = room.rows.asManager();
  const found: FishRow[] = [];
  for (const one of fish(room)) {
    const stays = whyItStays(one, going, await loanOf(m, one.id)) !== null;
    if (!stays && (await openOffersOf(m, [one.id])).length === 0) found.push(one);
  }
  return found;
};

const offer = async (room: FishRoom, { which, other }: Step): Promise<boolean> => {
  const fromId = room.person.id;
  const toId = room.people.filter(({ id }) => id !== fromId)[other % 2]!.id;
  const kind = (['gift', 'sale', 'loan', 'loan'] as const)[which % 4]!;
  const one = picked(await offerable(room, { fromId, toId, kind }), which);
  if (one === undefined) return false;
  room.put('handOvers', {
    ...{ id: newId(), groupId: newId(), fishId: one.id, fromId, toId, toName: toId, kind },
    ...{ offeredOn: room.today, laterSpawns: false, scores: false, photos: false, notes: false },
    ...{ tag: one.tag, sex: one.sex, madeHere: true },
    backOn: kind === 'loan' ? '2026-08-01' : null,
  });
  return true;
};

const note = async (
  room: FishRoom,
  row: HandOverRow,
  said: Partial<HandOverRow>,
): Promise<boolean> => {
  await noteHandOver(room.rows.asManager(), room.records, row, said, 'said', room.done);
  return true;
};

const answer = async (room: FishRoom, { which, other }: Step): Promise<boolean> => {
  const me = room.person.id;
  const row = picked(
    handOvers(room).filter((one) => one.toId === me && isOpen(one as never) && !one.madeHere),
    which,
  );
  if (row === undefined) return false;
  const said = other === 0 ? ('declined' as const) : ('accepted' as const);
  return note(room, row, { answer: said, answeredOn: room.today, answerWord: `by ${me}` });
};

const takeBack = async (room: FishRoom, { which }: Step): Promise<boolean> => {
  const open = handOvers(room).filter((one) => one.madeHere && isOpen(one as never));
  const row = picked(open, which);
  if (row === undefined) return false;
  const m = room.rows.asManager();
  await room.records.withdraw<HandOverRow>(m, handOverRecord, row.id, 'taken back', room.done.by);
  return true;
};

const onLoan = (room: FishRoom, side: 'fromId' | 'toId'): HandOverRow[] =>
  handOvers(room).filter(
    (one) =>
      one.kind === 'loan' &&
      one[side] === room.person.id &&
      one.movedOn !== null &&
      one.endedOn === null,
  );

const sayBack = async (room: FishRoom, { which, other }: Step): Promise<boolean> => {
  const row = picked(
    onLoan(room, 'toId').filter(({ returnSaidOn }) => returnSaidOn === null),
    which,
  );
  const returnAs = other === 0 ? ('died' as const) : ('came_back' as const);
  return row !== undefined && note(room, row, { returnAs, returnSaidOn: room.today });
};

const endLoan = async (room: FishRoom, { which, other }: Step): Promise<boolean> => {
  const row = picked(onLoan(room, 'fromId'), which);
  if (row === undefined) return false;
  const [m, { records, done }] = [room.rows.asManager(), room];
  const as = other === 0 ? ('died' as const) : ('came_back' as const);
  await endHandOver(m, records, row, as, done);
  const one = await records.lock<FishRow>(m, fishRecord, row.fishId);
  const changes: Partial<FishRow> =
    as === 'died'
      ? { disposition: 'died', dispositionDate: room.today }
      : { swimsWithId: row.fromId };
  if (one.withdrawnAt === null)
    await records.correct<FishRow>(m, fishRecord, one.id, undefined, changes, done.by);
  return true;
};

const die = async (room: FishRoom, { which, other }: Step): Promise<boolean> => {
  const me = room.person.id;
  const mine = fish(room).filter(
    (one) => one.personId === me && one.swimsWithId === me && one.disposition === 'keeper',
  );
  const one = picked(mine, which);
  // Now and then alone: dead fish go nowhere.
  if (one === undefined || other > 0) return false;
  const changes: Partial<FishRow> = { disposition: 'died', dispositionDate: room.today };
  await room.records.correct<FishRow>(
    ...([room.rows.asManager(), fishRecord, one.id, undefined, changes, me] as const),
  );
  return true;
};

const claim = (room: FishRoom, { which, other }: Step): Promise<boolean> => {
  const me = room.person.id;
  const bare = picked(
    fish(room).filter(
      (one) =>
        one.personId !== me &&
        one.disposition === 'elsewhere' &&
        one.withdrawnAt === null &&
        !claims(room).some((open) => open.fishId === one.id && isOpen(open)),
    ),
    which,
  );
  if (bare === undefined) return Promise.resolve(false);
  const mine = fish(room).filter((one) => one.personId === me && one.withdrawnAt === null);
  const own = other < 3 ? undefined : picked(mine, which);
  room.put('fishClaims', {
    ...{ id: newId(), fishId: bare.id, tag: bare.tag, byId: me, toId: bare.personId },
    ...{ asFishId: own?.id ?? null, asTag: own?.tag ?? null, claimedOn: room.today },
  });
  return Promise.resolve(true);
};

/** Whether it can be confirmed: what the service asks before it makes the records one. */
const mayConfirm = async (room: FishRoom, row: FishClaimRow): Promise<boolean> => {
  const [m, { records }] = [room.rows.asManager(), room];
  const bare = await records.lock<FishRow>(m, fishRecord, row.fishId);
  if (bare.personId !== row.toId || (await whyNotBare(m, bare)) !== null) return false;
  if (row.asFishId === null) return true;
  const own = await records.lock<FishRow>(m, fishRecord, row.asFishId);
  return own.withdrawnAt === null && own.personId === row.byId && own.id !== bare.id;
};

const answerClaim = async (room: FishRoom, { which, other }: Step): Promise<boolean> => {
  const [m, { records, done }] = [room.rows.asManager(), room];
  const mine = claims(room).filter((one) => one.toId === room.person.id && isOpen(one));
  const row = picked(mine, which);
  if (row === undefined) return false;
  const confirmed = other > 0 && (await mayConfirm(room, row));
  if (confirmed) {
    const bare = await records.lock<FishRow>(m, fishRecord, row.fishId);
    if (row.asFishId === null) await handBareRecord(m, records, bare, row.byId, done, bare.tag);
    else {
      const own = await records.lock<FishRow>(m, fishRecord, row.asFishId);
      await uniteFish(m, records, { bare, own, learns: false }, done);
    }
  }
  const said: Partial<FishClaimRow> = {
    answer: confirmed ? 'confirmed' : 'declined',
    ...{ answeredOn: room.today, applied: confirmed },
  };
  await records.correct<FishClaimRow>(m, fishClaimRecord, row.id, undefined, said, done.by);
  return true;
};

const backClaim = async (room: FishRoom, { which }: Step): Promise<boolean> => {
  const mine = claims(room).filter((one) => one.byId === room.person.id && isOpen(one));
  const row = picked(mine, which);
  if (row === undefined) return false;
  const m = room.rows.asManager();
  await room.records.withdraw<FishClaimRow>(m, fishClaimRecord, row.id, 'taken back', 'me');
  return true;
};

/** What somebody may do in a room, as the services write it. */
export const acts = {
  ...{ offer, answer, takeBack, sayBack, endLoan, die },
  ...{ claim, answerClaim, backClaim },
} as const;

// Without a leaning towards small numbers: those would decline and die more than anything else.
export const steps: fc.Arbitrary<Step[]> = fc.noBias(
  fc.array(
    fc.oneof(
      ...[of('offer', 8), of('answer', 6), of('takeBack', 1), of('sayBack', 2), of('endLoan', 6)],
      ...[of('die', 1), of('claim', 4), of('answerClaim', 4), of('backClaim', 1)],
      ...[of('post', 8), of('take', 16)],
    ),
    { minLength: 30, maxLength: 60, size: 'max' },
  ),
);
