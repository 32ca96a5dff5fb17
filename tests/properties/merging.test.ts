import {
  changedHere,
  compareStamps,
  decided,
  joinStamps,
  type MergedRecord,
  mergeRecords,
  pack,
  type Stamp,
  standingTexts,
  unpack,
  unsettledParts,
} from '@linewright/merging';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const seed = 20261127;
const INSTALLS = ['north', 'south', 'west'] as const;
const PARTS = ['note', 'person', 'withdrawn'] as const;
type Texts = Readonly<Record<string, string>>;

/** An edit and every edit of that part that its maker had seen: told by sets, without a stamp. */
interface Edit {
  readonly part: string;
  readonly text: string;
  readonly knew: ReadonlySet<number>;
}

interface Sent {
  readonly record: MergedRecord;
  readonly edits: ReadonlyMap<number, Edit>;
}

/** One fish room with one record, by the library and by sets side by side. */
class Room {
  record: MergedRecord = {};
  shown: Texts = {};
  #seen: Texts = {};
  #count = 0;
  edits = new Map<number, Edit>();

  constructor(
    readonly install: string,
    readonly world: { edits: number },
  ) {}

  #knowOf(part: string): Set<number> {
    return new Set([...this.edits].filter(([, edit]) => edit.part === part).map(([id]) => id));
  }

  #note(part: string, text: string): void {
    this.edits.set(++this.world.edits, { part, text, knew: this.#knowOf(part) });
  }

  edit(part: string, text: string): void {
    this.shown = { ...this.shown, [part]: text };
  }

  /** What was changed since is given its stamp only when something is sent or taken in. */
  stamp(): void {
    for (const [part, text] of Object.entries(this.shown))
      if (text !== this.#seen[part]) this.#note(part, text);
    const own = { install: this.install, count: this.#count + 1 };
    const next = changedHere(this.record, this.#seen, this.shown, own);
    if (next !== this.record) this.#count++;
    this.record = next;
    this.#seen = this.shown;
  }

  /** Only the parts that the other may see. */
  send(parts: readonly string[]): Sent {
    this.stamp();
    return {
      record: Object.fromEntries(
        Object.entries(this.record).filter(([name]) => parts.includes(name)),
      ),
      edits: new Map([...this.edits].filter(([, { part }]) => parts.includes(part))),
    };
  }

  take({ record, edits }: Sent): void {
    this.stamp();
    this.record = mergeRecords(this.record, record);
    this.edits = new Map([...this.edits, ...edits]);
    this.shown = standingTexts(this.record, this.shown);
    this.#seen = this.shown;
  }

  /** Takes the first of what stands, as any choice would do. */
  decide(): void {
    this.stamp();
    for (const part of unsettledParts(this.record)) {
      const text = this.record[part]![0]!.text;
      this.#note(part, text);
      this.record = decided(this.record, part, text, {
        install: this.install,
        count: ++this.#count,
      });
    }
    this.shown = standingTexts(this.record, this.shown);
    this.#seen = this.shown;
  }

  /** Texts of a part that no edit known here replaced, by sets. */
  standing(part: string): string[] {
    const replaced = new Set([...this.edits.values()].flatMap(({ knew }) => [...knew]));
    return [...this.edits]
      .filter(([id, edit]) => edit.part === part && !replaced.has(id))
      .map(([, { text }]) => text)
      .sort();
  }
}

const place = fc.integer({ min: 0, max: INSTALLS.length - 1 });
const step = fc.oneof(
  fc.record({
    act: fc.constant('edit' as const),
    at: place,
    part: fc.constantFrom(...PARTS),
    text: fc.constantFrom('a', 'b', 'c', 'd'),
  }),
  fc.record({
    act: fc.constant('send' as const),
    at: place,
    parts: fc.subarray([...PARTS], { minLength: 1 }),
  }),
  // Of all that was ever sent: lost, late, twice and in any order.
  fc.record({ act: fc.constant('take' as const), at: place, which: fc.nat(1_000) }),
  fc.record({ act: fc.constant('decide' as const), at: place }),
);

const play = (steps: readonly (typeof step extends fc.Arbitrary<infer S> ? S : never)[]) => {
  const world = { edits: 0 };
  const rooms = INSTALLS.map((install) => new Room(install, world));
  const post: Sent[] = [];
  for (const done of steps) {
    const room = rooms[done.at]!;
    if (done.act === 'edit') room.edit(done.part, done.text);
    else if (done.act === 'send') post.push(room.send(done.parts));
    else if (done.act === 'decide') room.decide();
    else if (post.length > 0) room.take(post[done.which % post.length]!);
  }
  return rooms;
};

const exchangeAll = (rooms: readonly Room[], order: readonly number[]): void => {
  for (let round = 0; round < 2; round++)
    for (const from of order)
      for (const to of order) if (from !== to) rooms[to]!.take(rooms[from]!.send([...PARTS]));
};

const steps = fc.array(step, { maxLength: 40 });
const orders = fc.shuffledSubarray([0, 1, 2], { minLength: 3, maxLength: 3 });

describe('records that three installs change apart', () => {
  it('stand alike once all has reached all, and lose no change that nobody replaced', () => {
    fc.assert(
      fc.property(steps, orders, (history, order) => {
        const rooms = play(history);
        for (const room of rooms) room.stamp();
        for (const room of rooms)
          for (const part of PARTS) {
            const texts = (room.record[part] ?? []).map(({ text }) => text).sort();
            expect(texts).toEqual(room.standing(part));
          }
        exchangeAll(rooms, order);
        for (const room of rooms) {
          expect(room.record).toEqual(rooms[0]!.record);
          for (const part of PARTS) {
            const texts = (room.record[part] ?? []).map(({ text }) => text).sort();
            expect(texts).toEqual(room.standing(part));
          }
        }
      }),
      { seed, numRuns: 1_000 },
    );
  });

  it('show the same everywhere once someone has decided and told', () => {
    let decisions = 0;
    fc.assert(
      fc.property(steps, orders, place, (history, order, who) => {
        const rooms = play(history);
        exchangeAll(rooms, order);
        decisions += unsettledParts(rooms[who]!.record).length;
        rooms[who]!.decide();
        exchangeAll(rooms, order);
        for (const room of rooms) {
          expect(unsettledParts(room.record)).toEqual([]);
          expect(room.shown).toEqual(rooms[0]!.shown);
        }
      }),
      { seed, numRuns: 1_000 },
    );
    expect(decisions).toBeGreaterThan(100);
  });

  it('what was shown stays until a person decides, where it still stands', () => {
    const world = { edits: 0 };
    const [north, south] = [new Room('north', world), new Room('south', world)];
    north.edit('note', 'first');
    south.take(north.send(['note']));
    north.edit('note', 'by north');
    south.edit('note', 'by south');
    north.take(south.send(['note']));
    south.take(north.send(['note']));
    expect(north.shown['note']).toBe('by north');
    expect(south.shown['note']).toBe('by south');
    expect(unsettledParts(north.record)).toEqual(['note']);
    expect(north.record).toEqual(south.record);
  });

  it('changes of different parts meet without a question', () => {
    const world = { edits: 0 };
    const [north, south] = [new Room('north', world), new Room('south', world)];
    north.edit('note', 'first');
    north.edit('person', 'n');
    south.take(north.send([...PARTS]));
    north.edit('note', 'by north');
    south.edit('person', 's');
    north.take(south.send([...PARTS]));
    south.take(north.send([...PARTS]));
    for (const room of [north, south]) {
      expect(room.shown).toEqual({ note: 'by north', person: 's' });
      expect(unsettledParts(room.record)).toEqual([]);
    }
  });

  it('the same said in two places is no question', () => {
    const world = { edits: 0 };
    const [north, south] = [new Room('north', world), new Room('south', world)];
    north.edit('withdrawn', 'dead');
    south.edit('withdrawn', 'dead');
    north.take(south.send([...PARTS]));
    expect(unsettledParts(north.record)).toEqual([]);
    expect(north.record['withdrawn']).toHaveLength(2);
  });

  it('two texts under one stamp, as a copied install makes them, stand both', () => {
    const original = changedHere({}, {}, { note: 'x' }, { install: 'north', count: 1 });
    const copy = changedHere({}, {}, { note: 'y' }, { install: 'north', count: 1 });
    expect(unsettledParts(mergeRecords(original, copy))).toEqual(['note']);
  });
});

describe('meeting', () => {
  const stamp: fc.Arbitrary<Stamp> = fc.dictionary(
    fc.constantFrom(...INSTALLS),
    fc.integer({ min: 1, max: 3 }),
    { minKeys: 1, noNullPrototype: true },
  );
  const part = fc.array(fc.record({ text: fc.constantFrom('a', 'b'), stamp }), { maxLength: 3 });
  // Versions that one of them replaces are none: what stands is what comes of meeting.
  const record = fc
    .dictionary(fc.constantFrom(...PARTS), part, { noNullPrototype: true })
    .map((raw) => mergeRecords(raw, {}));

  it('does not ask for the order, for the grouping or for how often', () => {
    fc.assert(
      fc.property(record, record, record, (a, b, c) => {
        expect(mergeRecords(a, b)).toEqual(mergeRecords(b, a));
        expect(mergeRecords(mergeRecords(a, b), c)).toEqual(mergeRecords(a, mergeRecords(b, c)));
        expect(mergeRecords(a, a)).toEqual(a);
      }),
      { seed, numRuns: 3_000 },
    );
  });

  it('a record comes back from what is kept beside what is shown of it', () => {
    fc.assert(
      fc.property(record, fc.nat(2), (merged, which) => {
        const known = Object.fromEntries(Object.entries(merged).filter(([, { length }]) => length));
        fc.pre(Object.keys(known).length > 0);
        const shown = Object.fromEntries(
          Object.entries(known).map(([name, part]) => [name, part[which % part.length]!.text]),
        );
        const packed = JSON.parse(JSON.stringify(pack(known, shown))) as ReturnType<typeof pack>;
        expect(mergeRecords(unpack(packed, shown), {})).toEqual(known);
      }),
      { seed, numRuns: 3_000 },
    );
    expect(() => pack({}, {})).toThrow(RangeError);
    expect(() => pack({ note: [{ text: 'a', stamp: { north: 1 } }] }, { note: 'b' })).toThrow(
      /"note"/,
    );
  });

  it('stamps are a partial order, and their join is the least that covers both', () => {
    const other = { same: 'same', older: 'newer', newer: 'older', apart: 'apart' } as const;
    fc.assert(
      fc.property(stamp, stamp, stamp, (a, b, c) => {
        expect(compareStamps(b, a)).toBe(other[compareStamps(a, b)]);
        const joined = joinStamps([a, b]);
        for (const one of [a, b]) expect(['same', 'newer']).toContain(compareStamps(joined, one));
        const covers = [a, b].every((one) => ['same', 'newer'].includes(compareStamps(c, one)));
        if (covers) expect(['same', 'newer']).toContain(compareStamps(c, joined));
      }),
      { seed, numRuns: 3_000 },
    );
  });
});
