import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { acts, type Step, steps } from './acts-of-hand-overs.js';
import { FishRoom, type Group, type Person, type Sent } from './fish-room.js';

const seed = 20261128;
/** Between the parts of a history all that is news goes round once: without that hardly anything comes to its end. */
const PARTS = 4;
const id = (kind: number, number: number): string =>
  `00000000-0000-4000-8${kind}00-${String(number).padStart(12, '0')}`;
const PEOPLE: readonly Person[] = [1, 2, 3].map((number) => ({
  ...{ id: id(1, number), install: id(2, number) },
}));

/** Three rooms with the same fish: each has one of its own, and the tag alone of one that sired a brood. */
const threeRooms = async (days: readonly number[]): Promise<FishRoom[]> => {
  const rooms = PEOPLE.map((person, at) => new FishRoom(person, PEOPLE, days[at]!, PEOPLE[0]!.id));
  const [first, ...others] = rooms as [FishRoom, ...FishRoom[]];
  for (const [at, { id: personId }] of PEOPLE.entries()) {
    const given = { sex: 'male', personId };
    first.put('fish', {
      ...{ ...given, id: id(3, at * 10), tag: `F-${at}` },
      ...{ swimsWithId: personId, disposition: 'keeper' },
    });
    const bare = id(3, at * 10 + 5);
    first.put('fish', { ...given, id: bare, tag: `BARE-${at}`, disposition: 'elsewhere' });
    first.put('spawns', { id: id(4, at), tag: `S-${at}`, personId, sireId: bare, failed: false });
  }
  for (const room of others) await room.take(first.send(room.person.id));
  return rooms;
};

/** The files of one history: all that was ever sent may come again. */
const play = async (
  rooms: readonly FishRoom[],
  history: readonly Step[],
  post: Sent[],
): Promise<void> => {
  for (const step of history) {
    const room = rooms[step.at]!;
    if (step.act === 'post') {
      for (const other of PEOPLE) if (other !== room.person) post.push(room.send(other.id));
      continue;
    }
    if (step.act === 'take') {
      const mine = post.filter(({ to }) => to === room.person.id);
      // Mostly the latest of somebody, now and then any: late, twice and in any order.
      const by = PEOPLE[step.which % 3]!.id;
      const latest = mine.findLast((sent) => sent.by === by);
      const one = step.other > 0 ? latest : mine[step.which % mine.length];
      if (one !== undefined) await room.take(one);
      continue;
    }
    const { act } = step;
    // Whoever may do it; the first that is asked is of chance.
    for (const turn of [0, 1, 2]) {
      const actor = rooms[(step.at + turn) % 3]!;
      if (await actor.act(() => acts[act](actor, step))) break;
    }
  }
};

const exchangeAll = async (
  rooms: readonly FishRoom[],
  order: readonly number[],
  rounds: number,
): Promise<void> => {
  for (let round = 0; round < rounds; round++)
    for (const from of order)
      for (const to of order)
        if (from !== to) await rooms[to]!.take(rooms[from]!.send(PEOPLE[to]!.id));
};

const OWN = ['madeHere', 'applied', 'revision'];
/** All rows of a group that a room shares with the others, without what is its own. */
const shown = (room: FishRoom, group: Group, among: readonly string[]): unknown[] =>
  room
    .all(group)
    .filter(
      (row) =>
        !('toId' in row) ||
        [row['fromId'] ?? row['byId'], row['toId']].every((one) => among.includes(one as string)),
    )
    .map((row) => Object.entries(row).filter(([name]) => !OWN.includes(name)))
    .map((fields) => Object.fromEntries(fields.toSorted(([a], [b]) => (a < b ? -1 : 1))))
    .toSorted((a, b) => (String(a['id']) < String(b['id']) ? -1 : 1));

interface Lie {
  readonly what: 'person' | 'field' | 'moved' | 'claimed';
  readonly fish: number;
  readonly which: number;
}
const lies = fc.noBias(
  fc.array(
    fc.record({
      what: fc.constantFrom('person', 'field', 'moved', 'claimed'),
      fish: fc.nat(5),
      which: fc.nat(1_000),
    }) as fc.Arbitrary<Lie>,
    { minLength: 1, maxLength: 8, size: 'max' },
  ),
);

const LIES: readonly Readonly<Record<string, unknown>>[] = [
  ...[
    { movedOn: '2026-06-01', turn: 1 },
    { answer: 'accepted', answeredOn: '2026-06-01' },
  ],
  { answer: 'accepted', answeredOn: '2026-06-01', movedOn: '2026-06-01', turn: 1 },
  ...[
    { endedAs: 'came_back', endedOn: '2026-06-02' },
    { kind: 'gift', backOn: null },
  ],
  ...[{ withdrawnAt: null, withdrawnReason: null }, { answer: 'confirmed' }],
];
let madeUp = 0;

/** Writes into the liar's own rows what no act of theirs would. */
const lieIn = (liar: FishRoom, { what, fish, which }: Lie): void => {
  const row = liar.all('fish')[fish % 6]!;
  const [fromId, toId] = [PEOPLE[which % 3]!.id, PEOPLE[(which + 1 + (fish % 2)) % 3]!.id];
  const made = { id: id(5, (madeUp += 1)), fishId: row.id, tag: String(row['tag']) };
  const said = LIES[which % LIES.length]!;
  if (what === 'person') Object.assign(row, { personId: toId, swimsWithId: toId });
  else if (what === 'moved')
    liar.put('handOvers', {
      ...{ ...made, groupId: made.id, fromId, toId, toName: 'x', kind: 'gift', sex: 'male' },
      ...{ offeredOn: '2026-06-01', laterSpawns: false, scores: false, photos: false },
      ...{ notes: false, ...(which % 2 === 0 && said) },
    });
  else if (what === 'claimed') {
    const as = which % 4 === 0 ? null : liar.all('fish')[which % 6]!.id;
    const answer = which % 2 === 0 ? 'confirmed' : null;
    const of = { byId: fromId, toId, asFishId: as, asTag: null, claimedOn: '2026-06-01' };
    liar.put('fishClaims', { ...made, ...of, answer });
  } else
    for (const one of [...liar.all('handOvers'), ...liar.all('fishClaims')]) {
      const has = Object.entries(said).filter(([name]) => name in one);
      Object.assign(one, Object.fromEntries(has));
    }
};

const personsOf = (room: FishRoom): Map<string, unknown> =>
  new Map(room.all('fish').map((row) => [row.id, row['personId']]));

/** Fish of which whoever is there has said themselves that they go to or come from that person: offered, accepted, or claimed. */
const mayGo = (room: FishRoom, other: string): Set<unknown> => {
  const me = room.person.id;
  const offered = room.all('handOvers').filter((row) => row['madeHere'] && row['toId'] === other);
  const accepted = room
    .all('handOvers')
    .filter((row) => row['toId'] === me && row['fromId'] === other && row['answer'] === 'accepted');
  const claimed = room
    .all('fishClaims')
    .filter((row) => row['byId'] === me && row['toId'] === other && row['asFishId'] === null);
  return new Set([...offered, ...accepted, ...claimed].map((row) => row['fishId']));
};

/** Takes the liar's file in, and looks whose the fish are then. Answers how much of it was left out. */
const takesNoHarm = async (room: FishRoom, liar: FishRoom): Promise<number> => {
  const [me, them] = [room.person.id, liar.person.id];
  const before = personsOf(room);
  const may = mayGo(room, them);
  const items = await room.take(liar.send(me));
  for (const [fish, person] of personsOf(room)) {
    const was = before.get(fish);
    if (was === undefined || person === was) continue;
    // A fish of whoever is there goes, and one of the liar's comes, only where they said so themselves.
    if (may.has(fish) && [me, them].includes(was as string)) continue;
    // Of its own fish the liar says whose they are from then on, but not that they are those of whoever reads it.
    expect([fish, was]).toEqual([fish, them]);
    expect(person).not.toBe(me);
  }
  return items.filter(({ leftOutWith }) => leftOutWith !== null).length;
};

const days = fc.array(fc.integer({ min: -400, max: 400 }), { minLength: 3, maxLength: 3 });
const orders = fc.shuffledSubarray([0, 1, 2], { minLength: 3, maxLength: 3 });

describe('fish that go from hand to hand between three installs', () => {
  it('are on record alike on all three once all has reached all, and nobody is asked', async () => {
    const done = { moved: 0, back: 0, refused: 0, united: 0, became: 0 };
    await fc.assert(
      fc.asyncProperty(steps, days, orders, async (history, wrong, order) => {
        const rooms = await threeRooms(wrong);
        const post: Sent[] = [];
        const part = Math.ceil(history.length / PARTS);
        for (let from = 0; from < history.length; from += part) {
          await play(rooms, history.slice(from, from + part), post);
          await exchangeAll(rooms, order, 1);
        }
        await exchangeAll(rooms, order, 2);
        for (const [at, room] of rooms.entries()) {
          expect([at, room.waiting()]).toEqual([at, []]);
          const next = rooms[(at + 1) % 3]!;
          const both = [room.person.id, next.person.id];
          for (const group of ['fish', 'spawns', 'handOvers', 'fishClaims'] as const)
            expect(shown(room, group, both)).toEqual(shown(next, group, both));
          for (const row of room.all('handOvers')) {
            if (row['movedOn'] !== null) done.moved++;
            if (row['endedAs'] === 'came_back') done.back++;
            if (row['withdrawnAt'] !== null && row['answer'] === 'accepted') done.refused++;
          }
          for (const row of room.all('fishClaims'))
            if (row['answer'] === 'confirmed')
              done[row['asFishId'] === null ? 'became' : 'united']++;
        }
      }),
      { seed, numRuns: 30 },
    );
    for (const [what, count] of Object.entries(done))
      expect([what, count > 5]).toEqual([what, true]);
  });

  it('go nowhere by the file of somebody who does not tell the truth', async () => {
    let [lied, left] = [0, 0];
    await fc.assert(
      fc.asyncProperty(steps, lies, fc.nat(2), async (history, told, who) => {
        const rooms = await threeRooms([0, 0, 0]);
        await play(rooms, history.slice(0, 20), []);
        await exchangeAll(rooms, [0, 1, 2], 1);
        await play(rooms, history.slice(20, 30), []);
        const liar = rooms[who]!;
        for (const lie of told) lieIn(liar, lie);
        for (const room of rooms) {
          if (room === liar) continue;
          left += await takesNoHarm(room, liar);
          // What they then accept of it is no more the liar's to give than before.
          for (const which of [0, 1, 2])
            await room.act(() => acts.answer(room, { act: 'answer', at: 0, which, other: 1 }));
          await liar.take(room.send(liar.person.id));
          for (const row of liar.all('handOvers'))
            Object.assign(row, { movedOn: '2026-06-01', turn: 1 });
          left += await takesNoHarm(room, liar);
          lied += told.length;
        }
      }),
      { seed, numRuns: 25 },
    );
    expect([lied > 200, left > 100]).toEqual([true, true]);
  });
});
