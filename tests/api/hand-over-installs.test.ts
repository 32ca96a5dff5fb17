import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAgo, today } from '../clock.js';
import { newRecords } from '../new-records.js';
import { recordsOf, type RunningApi, startApi } from './harness.js';
import {
  exchange,
  exchangeBothWays,
  grant,
  pairUp,
  type Partner,
  takeOffered,
} from './paired-installs.js';

const LIST = `query ($id: ID) { handOvers(first: 50, fishId: $id) { edges { node {
  id tag state side quarantineUntil endedAs answerWord healthNote laterSpawns { damTag } } } } }`;
const FISH = 'query ($id: ID!) { fish(id: $id) { tag place person { here } swimsWith { here } } }';

interface Told {
  readonly id: string;
  readonly tag: string;
  readonly state: string;
  readonly side: string;
}

interface Seen {
  readonly tag: string;
  readonly place: string;
  readonly person: { readonly here: boolean };
}

describe('a fish from one install to another, through the folder', () => {
  let a: RunningApi;
  let b: RunningApi;
  let folder = '';
  let ofB: Partner;
  let ofA: Partner;
  const ids: Record<string, string> = {};

  beforeAll(async () => {
    [a, b] = await Promise.all([startApi(), startApi()]);
    const make = newRecords(a);
    const line = await make.createLine({ code: 'R', name: 'Rust' });
    for (const tag of ['GIVEN', 'LENT', 'KEPT', 'SAME', 'DEAD', 'STAYS'])
      ids[tag] = await make.createFish({ tag, sex: 'MALE', lineId: line });
    ({ folder, ofB, ofA } = await pairUp(a, b));
    // With whom a fish swims is not told: a hand-over says so all the same.
    await grant(a, ofB.person.id, line, { place: false });
    await exchange(a, ofB.id);
    await exchange(b, ofA.id);
    await takeOffered(b, ofA.id, line);
    await newRecords(b).createFish({ tag: 'SAME', sex: 'FEMALE' });
    await bothWays();
  });
  afterAll(() => Promise.all([a.close(), b.close()]));

  const bothWays = (): Promise<void> => exchangeBothWays(a, ofB.id, b, ofA.id);
  const handOversOf = async (api: RunningApi, tag: string): Promise<Told[]> => {
    const { handOvers } = await api.graphql<{ handOvers: { edges: { node: Told }[] } }>(LIST, {
      id: ids[tag],
    });
    return handOvers.edges.map(({ node }) => node);
  };
  const handOver = async (api: RunningApi, tag: string): Promise<Told> =>
    (await handOversOf(api, tag))[0]!;
  const fish = async (api: RunningApi, tag: string): Promise<Seen> =>
    (await api.graphql<{ fish: Seen }>(FISH, { id: ids[tag] })).fish;
  const offer = async (tag: string, more: object = {}): Promise<void> => {
    await a.graphql('mutation ($input: OfferFishInput!) { offerFish(input: $input) { id } }', {
      input: { fishIds: [ids[tag]], toId: ofB.person.id, kind: 'GIFT', ...more },
    });
    await bothWays();
  };
  const accept = async (tag: string, more: object = {}): Promise<string> => {
    const { id } = await handOver(b, tag);
    const answer = await b.send<{ acceptFish: Told[] }>(
      'mutation ($input: AcceptFishInput!) { acceptFish(input: $input) { state } }',
      { input: { ids: [id], ...more } },
    );
    return answer.errors?.[0]?.message ?? answer.data?.acceptFish[0]?.state ?? '';
  };
  const nameGiven = async (name: string): Promise<void> => {
    const { fish: one } = await b.graphql<{ fish: { revision: number } }>(
      'query ($id: ID!) { fish(id: $id) { revision } }',
      { id: ids['GIVEN'] },
    );
    await b.graphql('mutation ($input: CorrectFishInput!) { correctFish(input: $input) { id } }', {
      input: { id: ids['GIVEN'], revision: one.revision, name },
    });
  };
  const ended = (api: RunningApi, mutation: string, id: string) =>
    api.graphql(`mutation ($input: LoanReturnInput!) { ${mutation}(input: $input) { id } }`, {
      input: { id, as: 'CAME_BACK', on: today() },
    });
  const waiting = async (api: RunningApi): Promise<number> =>
    (
      await api.graphql<{ differences: { totalCount: number } }>(
        '{ differences(first: 5) { totalCount } }',
      )
    ).differences.totalCount;

  it('is offered there, and moves once the giver’s install has read that it was accepted', async () => {
    await offer('GIVEN', { healthNote: 'Two of its sibs had torn fins', laterSpawns: true });
    expect(await handOver(b, 'GIVEN')).toMatchObject({
      ...{ state: 'OFFERED', side: 'RECEIVER', healthNote: 'Two of its sibs had torn fins' },
    });
    expect(await accept('GIVEN', { quarantineDays: 14, word: 'It shall be well' })).toBe('AGREED');
    // Whether it was taken back meanwhile is not known here yet.
    expect((await fish(b, 'GIVEN')).person.here).toBe(false);
    await bothWays();
    for (const api of [a, b])
      expect(await handOver(api, 'GIVEN')).toMatchObject({
        ...{ state: 'MOVED', quarantineUntil: daysAgo(-13), answerWord: 'It shall be well' },
      });
    expect(await fish(a, 'GIVEN')).toMatchObject({ person: { here: false }, place: 'PARTNER' });
    expect(await fish(b, 'GIVEN')).toMatchObject({ person: { here: true }, place: 'HERE' });
    expect([await waiting(a), await waiting(b)]).toEqual([0, 0]);
  });

  it('is the receiver’s record from then on: what they change comes back to the giver', async () => {
    await nameGiven('Ember');
    await bothWays();
    const { fish: seen } = await a.graphql<{ fish: { name: string } }>(
      'query ($id: ID!) { fish(id: $id) { name } }',
      { id: ids['GIVEN'] },
    );
    expect(seen.name).toBe('Ember');
    expect([await waiting(a), await waiting(b)]).toEqual([0, 0]);
  });

  it('is lent and comes back, and swims where both say so', async () => {
    await offer('LENT', { kind: 'LOAN', backOn: daysAgo(-20) });
    await accept('LENT');
    await bothWays();
    for (const [api, place] of [
      [a, 'PARTNER'],
      [b, 'HERE'],
    ] as const) {
      expect((await handOver(api, 'LENT')).state).toBe('MOVED');
      expect((await fish(api, 'LENT')).place).toBe(place);
    }
    await ended(b, 'sayLoanReturned', (await handOver(b, 'LENT')).id);
    await bothWays();
    expect((await handOver(a, 'LENT')).state).toBe('RETURNING');
    await ended(a, 'endLoan', (await handOver(a, 'LENT')).id);
    await bothWays();
    for (const [api, place] of [
      [a, 'HERE'],
      [b, 'PARTNER'],
    ] as const) {
      expect(await handOver(api, 'LENT')).toMatchObject({ state: 'ENDED', endedAs: 'CAME_BACK' });
      expect((await fish(api, 'LENT')).place).toBe(place);
    }
  });

  it('stays where it is when the offer was taken back before the answer was read', async () => {
    await offer('KEPT');
    await accept('KEPT');
    await a.graphql('mutation ($ids: [ID!]!) { takeBackOffers(ids: $ids) { id } }', {
      ids: [(await handOver(a, 'KEPT')).id],
    });
    await exchange(b, ofA.id);
    await bothWays();
    for (const api of [a, b]) expect((await handOver(api, 'KEPT')).state).toBe('TAKEN_BACK');
    expect((await fish(a, 'KEPT')).place).toBe('HERE');
    expect((await fish(b, 'KEPT')).person.here).toBe(false);
    expect([await waiting(a), await waiting(b)]).toEqual([0, 0]);
  });

  it('stays where it is when it died before the answer was read', async () => {
    await offer('DEAD');
    await accept('DEAD');
    await a.graphql('mutation ($input: DecideFishInput!) { decideFish(input: $input) { id } }', {
      input: { id: ids['DEAD'], disposition: 'DIED', on: today() },
    });
    await bothWays();
    for (const api of [a, b]) expect((await handOver(api, 'DEAD')).state).toBe('TAKEN_BACK');
    expect((await fish(b, 'DEAD')).person.here).toBe(false);
  });

  it('gets another tag where the receiver uses its own', async () => {
    await offer('SAME');
    expect(await accept('SAME')).toContain('"SAME" is on another of your fish');
    const { id } = await handOver(b, 'SAME');
    expect(await accept('SAME', { tags: [{ id, tag: 'SAME-R' }] })).toBe('AGREED');
    await bothWays();
    for (const api of [a, b]) expect((await fish(api, 'SAME')).tag).toBe('SAME-R');
  });

  it('does not go to the other side by their word of a loan that never was', async () => {
    const theirs = await recordsOf(b);
    await theirs.query(
      `INSERT INTO hand_over (id, group_id, fish_id, from_id, to_id, to_name, kind, offered_on, back_on, tag, sex, answer,
         answered_on, moved_on, turn, ended_on, ended_as, applied)
       VALUES (gen_random_uuid(), gen_random_uuid(), $1, $2, $3, 'Anna', 'loan', $4, $4, 'STAYS', 'male', 'accepted', $4, $4, 1, $4, 'came_back', true)`,
      [ids['STAYS'], ofB.person.id, ofA.person.id, today()],
    );
    // A line goes out again once something of it was changed by the program.
    await nameGiven('Ash');
    await bothWays();
    // Whoever is here never answered it, so it is left out with all that it says.
    expect(await handOversOf(a, 'STAYS')).toEqual([]);
    expect((await fish(a, 'STAYS')).place).toBe('HERE');
    await theirs.query('DELETE FROM hand_over WHERE ended_as = $1 AND from_id = $2', [
      ...['came_back', ofB.person.id],
    ]);
  });

  it('is not moved by what the other side may not say, nor by an older file that comes again', async () => {
    await offer('STAYS', { kind: 'LOAN', backOn: daysAgo(-9) });
    const theirs = await recordsOf(b);
    const { id } = await handOver(b, 'STAYS');
    // What only the giver writes.
    await theirs.query(
      `UPDATE hand_over SET moved_on = $2, turn = 1, kind = 'gift', back_on = NULL, applied = true WHERE id = $1`,
      [id, today()],
    );
    await bothWays();
    expect((await handOver(a, 'STAYS')).state).toBe('OFFERED');
    expect((await fish(a, 'STAYS')).place).toBe('HERE');
    const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) =>
      name.endsWith('.age'),
    );
    const before = files.map((name) => [name, readFileSync(join(folder, name))] as const);
    await a.graphql('mutation ($ids: [ID!]!) { takeBackOffers(ids: $ids) { id } }', {
      ids: [(await handOver(a, 'STAYS')).id],
    });
    await bothWays();
    for (const [name, bytes] of before) writeFileSync(join(folder, name), bytes);
    await bothWays();
    expect((await handOver(a, 'STAYS')).state).toBe('TAKEN_BACK');
    expect(await fish(a, 'GIVEN')).toMatchObject({ person: { here: false } });
    expect(await fish(b, 'GIVEN')).toMatchObject({ person: { here: true } });
  });
});
