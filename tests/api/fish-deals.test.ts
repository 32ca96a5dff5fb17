import type { DataSource } from 'typeorm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAgo, today } from '../clock.js';
import { newRecords } from '../new-records.js';
import { recordsOf, type RunningApi, startApi } from './harness.js';
import { askedIn, codeOf, type Joined, joined, madeBy } from './joined.js';
import { lineFile, partsOfZip } from './line-files.js';
import type { Browser } from './other-browser.js';
import { exchangeBothWays, grant, pairUp } from './paired-installs.js';

const RECORD = `mutation ($input: RecordFishDealInput!) { recordFishDeal(input: $input) { id revision amount currency mine } }`;
const CORRECT = `mutation ($input: CorrectFishDealInput!) { correctFishDeal(input: $input) { revision amount currency withWhom } }`;
const WITHDRAW = `mutation ($input: WithdrawInput!) { withdrawFishDeal(input: $input) { withdrawn { reason } } }`;
const SEEN = `query ($id: ID!) { fish(id: $id) { notShared deals { kind onDate amount currency withWhom note mine } } }`;
const HISTORY = `query ($id: ID!) { history(recordKind: FISH_DEAL, recordId: $id, first: 9) { edges { node { action } } } }`;

interface Deal {
  readonly kind: string;
  readonly amount: number | null;
  readonly withWhom: string | null;
  readonly mine: boolean;
}
interface Seen {
  readonly fish: { notShared: string[]; deals: Deal[] };
}
interface Recorded {
  readonly recordFishDeal: { id: string; revision: number };
}

let api: RunningApi;
let records: DataSource;
let solveig: Joined;
let runa: Joined;
let household: Joined;
const ids: Record<string, string> = {};

const owner = (): Browser => ({
  send: (query, variables) => api.send(query, variables),
  http: (path, init) => api.http(path, init),
});
const seenBy = async (browser: Browser, id = ids['fish']): Promise<Seen['fish']> =>
  (await askedIn<Seen>(browser, SEEN, { id })).fish;
const amounts = async (browser: Browser, id = ids['fish']): Promise<(number | null)[]> =>
  (await seenBy(browser, id)).deals.map(({ amount }) => amount);
const deal = (fishId: string | undefined, more: object = {}): object => ({
  input: {
    ...{ fishId, kind: 'BOUGHT', onDate: daysAgo(9), amount: 123456, currency: 'THB' },
    ...{ withWhom: 'Nobody you know', note: 'With two others' },
    ...more,
  },
});

beforeAll(async () => {
  api = await startApi();
  records = await recordsOf(api);
  const make = newRecords(api);
  ids['line'] = await make.createLine({ code: 'P', name: 'Priced' });
  ids['fish'] = await make.createFish({ tag: 'P-1', sex: 'MALE', lineId: ids['line'] });
  solveig = await joined(api, 'Solveig', 'KEEPER');
  runa = await joined(api, 'Runa', 'PARTNER');
  household = await joined(api, 'Ines', 'HOUSEHOLD');
});
afterAll(() => api.close());

describe('a price', () => {
  it('is recorded once, corrected, withdrawn, and told in its history', async () => {
    const id = '10000000-0000-4000-8000-000000000001';
    for (let k = 0; k < 2; k += 1)
      expect(
        (await api.graphql<Recorded>(RECORD, deal(ids['fish'], { id }))).recordFishDeal,
      ).toEqual({ id, revision: 1, amount: 123456, currency: 'THB', mine: true });
    const corrected = await api.graphql(CORRECT, {
      input: { id, revision: 1, amount: 5000, currency: 'JPY', withWhom: null },
    });
    expect(corrected).toEqual({
      correctFishDeal: { revision: 2, amount: 5000, currency: 'JPY', withWhom: null },
    });
    const late = await api.send(CORRECT, { input: { id, revision: 1, amount: 1 } });
    expect(codeOf(late)).toBe('CONFLICT_REVISION');
    expect(await amounts(household)).toEqual([5000]);
    await api.graphql(WITHDRAW, { input: { id, revision: 2, reason: 'Another fish' } });
    expect(await amounts(owner())).toEqual([]);
    const { history } = await api.graphql<{ history: { edges: { node: { action: string } }[] } }>(
      HISTORY,
      { id },
    );
    expect(history.edges.map(({ node }) => node.action)).toEqual([
      'withdrawn',
      'corrected',
      'recorded',
    ]);
  });

  it.each([
    [{ currency: null }, 'currency'],
    [{ amount: null }, 'amount'],
    [{ amount: 12.5 }, 'amount'],
    [{ amount: -1 }, 'amount'],
    [{ currency: 'euro' }, 'currency'],
    [{ onDate: daysAgo(-9) }, 'onDate'],
  ])('that cannot be is refused: %o', async (wrong, field) => {
    const { errors } = await api.send(RECORD, deal(ids['fish'], wrong));
    expect(JSON.stringify(errors?.[0]?.extensions)).toContain(`"field":"${field}"`);
    expect(await amounts(owner())).toEqual([]);
  });

  it('may be none: a gift and a swap', async () => {
    const swap = { kind: 'SWAPPED', amount: null, currency: null };
    const { recordFishDeal } = await api.graphql<Recorded>(RECORD, deal(ids['fish'], swap));
    expect(await amounts(owner())).toEqual([null]);
    const { id, revision } = recordFishDeal;
    await api.graphql(WITHDRAW, { input: { id, revision, reason: 'A trial' } });
  });
});

describe('whoever a line is lent to', () => {
  beforeAll(async () => {
    await api.graphql(RECORD, deal(ids['fish']));
  });

  it('sees prices where they are ticked, and with whom where notes are too', async () => {
    const all = { level: 'BREED', prices: false };
    await grant(api, runa.id, ids['line']!, all);
    expect(await seenBy(runa)).toMatchObject({ notShared: ['PRICES'], deals: [] });
    await grant(api, runa.id, ids['line']!, { ...all, prices: true, notes: false });
    expect((await seenBy(runa)).deals).toEqual([
      {
        ...{ kind: 'BOUGHT', onDate: daysAgo(9), amount: 123456, currency: 'THB' },
        ...{ withWhom: null, note: null, mine: false },
      },
    ]);
    await grant(api, runa.id, ids['line']!, { ...all, prices: true });
    expect((await seenBy(runa)).deals[0]?.withWhom).toBe('Nobody you know');
    const [{ id }] = (await records.query(
      'SELECT id FROM fish_deal WHERE withdrawn_at IS NULL',
    )) as [{ id: string }];
    expect(codeOf(await runa.send(CORRECT, { input: { id, revision: 1, amount: 1 } }))).toBe(
      'NOT_FOUND',
    );
    expect(codeOf(await runa.send(RECORD, deal(ids['fish'])))).toBe('NOT_ALLOWED');
    await grant(api, runa.id, ids['line']!, { ...all, level: 'LOOK' });
    expect(await amounts(runa)).toEqual([]);
  });

  it('gets them with a fish handed over no more than with any other', async () => {
    await grant(api, runa.id, ids['line']!, { level: 'LOOK', prices: false });
    const { offerFish } = await api.graphql<{ offerFish: { id: string }[] }>(
      'mutation ($input: OfferFishInput!) { offerFish(input: $input) { id } }',
      {
        input: {
          fishIds: [ids['fish']],
          kind: 'SALE',
          toId: runa.id,
          withNotes: true,
          withScores: true,
        },
      },
    );
    await askedIn(
      runa,
      'mutation ($input: AcceptFishInput!) { acceptFish(input: $input) { id } }',
      {
        input: { ids: offerFish.map(({ id }) => id) },
      },
    );
    const told = await askedIn<{ fish: { person: { name: string } } }>(
      runa,
      'query ($id: ID!) { fish(id: $id) { person { name } } }',
      { id: ids['fish'] },
    );
    expect(told.fish.person.name).toBe('Runa');
    expect(await amounts(runa)).toEqual([]);
    expect(await amounts(owner())).toEqual([123456]);
  });
});

describe('a keeper on the same server', () => {
  it('has prices of their own, which the owner and the household never see', async () => {
    const make = madeBy(solveig);
    const lineId = await make.createLine({ code: 'SOL', name: 'Solveig’s' });
    const fish = await make.createFish({ tag: 'SOL-1', sex: 'MALE', lineId });
    const { recordFishDeal } = await askedIn<Recorded>(
      solveig,
      RECORD,
      deal(fish, { amount: 777 }),
    );
    expect(await amounts(solveig, fish)).toEqual([777]);
    const { offerFish } = await askedIn<{ offerFish: { id: string }[] }>(
      solveig,
      'mutation ($input: OfferFishInput!) { offerFish(input: $input) { id } }',
      { input: { fishIds: [fish], kind: 'SALE', toId: await ownerId(), withNotes: true } },
    );
    await api.graphql('mutation ($input: AcceptFishInput!) { acceptFish(input: $input) { id } }', {
      input: { ids: offerFish.map(({ id }) => id) },
    });
    for (const browser of [owner(), household]) {
      expect(await amounts(browser, fish)).toEqual([]);
      const history = await askedIn<{ history: { edges: object[] } }>(browser, HISTORY, {
        id: recordFishDeal.id,
      });
      expect(history.history.edges).toEqual([]);
    }
    expect(await amounts(solveig, fish)).toEqual([777]);
    await api.graphql(RECORD, deal(fish, { amount: 888, onDate: today() }));
    expect(await amounts(owner(), fish)).toEqual([888]);
    expect(await amounts(solveig, fish)).toEqual([777]);
  });
});

const ownerId = async (): Promise<string> => {
  const [row] = (await records.query('SELECT id FROM person WHERE here')) as { id: string }[];
  return row?.id ?? '';
};

describe('a line’s file', () => {
  it('holds prices where they are ticked, and the owner’s alone', async () => {
    const elsewhere = '10000000-0000-4000-8000-0000000000aa';
    await records.query(`INSERT INTO person (id, name) VALUES ($1, 'Elsewhere')`, [elsewhere]);
    await records.query(
      `INSERT INTO fish_deal (id, fish_id, person_id, kind, on_date, amount, currency)
       VALUES (gen_random_uuid(), $1, $2, 'sold', $3, 999, 'EUR')`,
      [ids['fish'], elsewhere, today()],
    );
    const told = async (asked: string): Promise<unknown[]> => {
      const parts = await partsOfZip(await lineFile(api, ids['line']!, asked));
      const { records: all } = JSON.parse(String(parts.get('line.json'))) as {
        records: { fishDeals: { amount: number }[] };
      };
      return all.fishDeals
        .map(({ amount }) => amount)
        .filter((amount) => amount === 123456 || amount === 999);
    };
    expect(await told('?photos=yes&plans=yes')).toEqual([]);
    expect(await told('?parts=notes,place')).toEqual([]);
    expect(await told('?parts=prices')).toEqual([123456]);
    expect(await told('?photos=yes&prices=yes')).toEqual([123456]);
  });
});

describe('two installs', () => {
  it('tell each other their own prices where they share them, and change none of the other', async () => {
    const [a, b] = [await startApi(), await startApi()];
    try {
      const make = newRecords(a);
      const line = await make.createLine({ code: 'X', name: 'Exchanged' });
      const fish = await make.createFish({ tag: 'X-1', sex: 'MALE', lineId: line });
      await a.graphql(RECORD, deal(fish, { amount: 100 }));
      const { ofA, ofB } = await pairUp(a, b);
      await grant(a, ofB.person.id, line);
      await exchangeBothWays(a, ofB.id, b, ofA.id);
      const offered = `mutation ($id: ID!, $line: ID!) { takeOfferedLine(installId: $id, lineId: $line) { id } }`;
      await b.graphql(offered, { id: ofA.id, line });
      const at = async (one: RunningApi) =>
        (await one.graphql<Seen>(SEEN, { id: fish })).fish.deals.map(({ amount }) => amount);
      expect(await at(b)).toEqual([]);
      await grant(a, ofB.person.id, line, { prices: true });
      await exchangeBothWays(a, ofB.id, b, ofA.id);
      expect(await at(b)).toEqual([100]);
      // What the other paid stays with the other, until they share it too.
      await b.graphql(RECORD, deal(fish, { amount: 200, onDate: today() }));
      await exchangeBothWays(b, ofA.id, a, ofB.id);
      expect([await at(a), await at(b)]).toEqual([[100], [200, 100]]);
      await grant(b, ofA.person.id, line, { prices: true });
      await exchangeBothWays(b, ofA.id, a, ofB.id);
      expect(await at(a)).toEqual([200, 100]);
      // A file that says otherwise of one's own price is not taken.
      const [theirs] = (await (
        await recordsOf(b)
      ).query('SELECT id, revision FROM fish_deal WHERE amount = 100')) as {
        id: string;
        revision: number;
      }[];
      const changed = { input: { id: theirs!.id, revision: theirs!.revision, amount: 1 } };
      expect(codeOf(await b.send(CORRECT, changed))).toBe('NOT_FOUND');
      await (await recordsOf(b)).query('UPDATE fish_deal SET amount = 1 WHERE amount = 100');
      await b.graphql(RECORD, deal(fish, { amount: 300, onDate: today() }));
      await exchangeBothWays(b, ofA.id, a, ofB.id);
      expect(await at(a)).toEqual([300, 200, 100]);
    } finally {
      await Promise.all([a.close(), b.close()]);
    }
  });
});
