import { randomUUID } from 'node:crypto';
import type { DataSource } from 'typeorm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAgo, today } from '../clock.js';
import { newRecords } from '../new-records.js';
import { type GraphqlAnswer, recordsOf, type RunningApi, startApi } from './harness.js';
import { type Browser, joinedAs } from './other-browser.js';

const SECRET = 'For nobody else';
const NOTHING = {
  ...{ scores: false, photos: false, notes: false, water: false, place: false },
  ...{ prices: false, ancestors: false },
};
const SEEN = `query ($fish: ID!, $spawn: ID!) {
  fish(id: $fish) { tag note swimsWith { name } scores { value note scorer } }
  spawn(id: $spawn) { tag note events { note } }
  waterReadings(spawnId: $spawn) { edges { node { note } } } }`;

let api: RunningApi;
let records: DataSource;
let partner: Browser & { id: string };
let other: Browser & { id: string };
const ids: Record<string, string> = {};

const codeOf = ({ errors }: GraphqlAnswer<unknown>): string | undefined =>
  errors?.[0]?.extensions.code;

const grant = async (
  level: 'LOOK' | 'SCORE' | 'BREED',
  parts: Partial<typeof NOTHING> = {},
  to = partner.id,
): Promise<void> => {
  const input = { personId: to, lineId: ids['line'], level, ...NOTHING, ...parts };
  await api.graphql('mutation ($input: GrantLineInput!) { grantLine(input: $input) { level } }', {
    input,
  });
};

const endGrant = (): Promise<unknown> =>
  api.graphql('mutation ($p: ID!, $l: ID!) { endLineGrant(personId: $p, lineId: $l) { level } }', {
    p: partner.id,
    l: ids['line'],
  });

beforeAll(async () => {
  api = await startApi();
  records = await recordsOf(api);
  const make = newRecords(api);
  const lineId = await make.createLine({ code: 'LENT', name: 'Lent line' });
  ids['line'] = lineId;
  ids['sire'] = await make.createFish({ tag: 'SIRE', sex: 'MALE', lineId, note: SECRET });
  ids['dam'] = await make.createFish({ tag: 'DAM', sex: 'FEMALE', lineId });
  ids['hidden'] = await make.createFish({ tag: 'HIDDEN', sex: 'MALE', note: SECRET });
  ids['spawn'] = await make.createSpawn({
    ...{ tag: 'LENT-S', lineId, sireId: ids['sire'], damId: ids['dam'], note: SECRET },
    spawnedOn: daysAgo(40),
  });
  const at = `${daysAgo(40)}T08:00:00Z`;
  await make.recordSpawnEvent({ spawnId: ids['spawn'], kind: 'SPAWNED', at, note: SECRET });
  ids['trait'] = await make.createTrait({
    key: 'length',
    name: 'Length',
    kind: 'MEASURED',
    unit: 'mm',
  });
  await make.recordScores({
    ...{ fishId: ids['sire'], scoredOn: today() },
    scores: [{ traitId: ids['trait'], value: 41, note: SECRET }],
  });
  await api.graphql('mutation ($input: RecordWaterInput!) { recordWater(input: $input) { id } }', {
    input: { spawnId: ids['spawn'], takenAt: at, figures: { pH: 7, note: SECRET } },
  });
  partner = await joinedAs(api, 'Runa');
  other = await joinedAs(api, 'Pelle');
});
afterAll(() => api.close());

interface Seen {
  readonly fish: {
    note: string | null;
    swimsWith: { name: string } | null;
    scores: { value: number; note: string | null; scorer: string }[];
  };
  readonly spawn: { note: string | null; events: { note: string | null }[] };
  readonly waterReadings: { edges: { node: { note: string | null } }[] };
}

const seenBy = async (browser: Browser): Promise<Seen> => {
  const answer = await browser.send<Seen>(SEEN, { fish: ids['sire'], spawn: ids['spawn'] });
  expect(answer.errors).toBe(undefined);
  return answer.data as Seen;
};

/** Makes records in a browser; what is refused is thrown with its code. */
const madeBy = (browser: Browser) =>
  newRecords({
    graphql: async <Data>(query: string, variables: object) => {
      const { data, errors } = await browser.send<Data>(query, variables);
      if (errors !== undefined || data === null) throw new Error(JSON.stringify(errors));
      return data;
    },
  });

const scoreBy = (browser: Browser, fishId: string | undefined, value = 40) =>
  madeBy(browser).recordScores({
    ...{ fishId: fishId ?? '', scoredOn: today() },
    scores: [{ traitId: ids['trait'] ?? '', value }],
  });

describe('a line that was granted to look at', () => {
  it('shows fish and spawns without what is lent part by part', async () => {
    await grant('LOOK');
    expect(await seenBy(partner)).toEqual({
      fish: { tag: 'SIRE', note: null, swimsWith: null, scores: [] },
      spawn: { tag: 'LENT-S', note: null, events: [{ note: null }] },
      waterReadings: { edges: [] },
    });
    expect(codeOf(await partner.send(SEEN, { fish: ids['hidden'], spawn: ids['spawn'] }))).toBe(
      'NOT_FOUND',
    );
  });

  it.each([
    ['scores', { fish: { scores: [{ value: 41, note: null, scorer: 'Test keeper' }] } }],
    ['notes', { fish: { note: SECRET }, spawn: { note: SECRET, events: [{ note: SECRET }] } }],
    ['water', { waterReadings: { edges: [{ node: { note: null } }] } }],
    ['place', { fish: { swimsWith: { name: 'Test keeper' } } }],
  ] as const)(
    'shows %s where that part is lent too, and nothing of the others',
    async (part, due) => {
      await grant('LOOK');
      const before = await seenBy(partner);
      await grant('LOOK', { [part]: true });
      const after = await seenBy(partner);
      expect(after).toMatchObject(due);
      const withDue = { ...before, ...due } as Record<string, object>;
      for (const [name, value] of Object.entries(before))
        expect(after[name as keyof Seen]).toEqual({ ...value, ...(withDue[name] as object) });
    },
  );

  it('finds nothing by a word of a note that is not shown', async () => {
    const find = `{ fishList(first: 9, filter: { text: "nobody else" }) { totalCount } }`;
    await grant('LOOK');
    expect((await partner.send(find)).data).toEqual({ fishList: { totalCount: 0 } });
    await grant('LOOK', { notes: true });
    expect((await partner.send(find)).data).toEqual({ fishList: { totalCount: 1 } });
  });

  it('takes no score and no change', async () => {
    await grant('LOOK', { scores: true });
    const print = await records.query('SELECT count(*) FROM score');
    await expect(scoreBy(partner, ids['sire'])).rejects.toThrow(/NOT_ALLOWED/);
    const rename = `mutation ($id: ID!) { correctLine(input: { id: $id, revision: 1, name: "Mine" }) { id } }`;
    expect(codeOf(await partner.send(rename, { id: ids['line'] }))).not.toBe(undefined);
    expect(await records.query('SELECT count(*) FROM score')).toEqual(print);
    const [line] = (await records.query('SELECT name FROM line')) as { name: string }[];
    expect(line?.name).toBe('Lent line');
  });
});

describe('what is not shared', () => {
  const TOLD = `query ($fish: ID!, $spawn: ID!) {
    fish(id: $fish) { notShared namedSire { id tag recordShown } namedDam { tag } } spawn(id: $spawn) { notShared } }`;
  const told = async (browser: Browser, fish: string | undefined) => {
    const { data, errors } = await browser.send<{
      fish: { notShared: string[]; namedSire: object | null; namedDam: object | null };
      spawn: { notShared: string[] };
    }>(TOLD, { fish, spawn: ids['spawn'] });
    expect(errors).toBe(undefined);
    return data!;
  };

  it('is said part by part, of a fish and of a spawn, and nothing of it to the owner', async () => {
    await grant('LOOK');
    expect(await told(partner, ids['sire'])).toMatchObject({
      fish: { notShared: ['SCORES', 'PHOTOS', 'NOTES', 'PLACE', 'PRICES'] },
      spawn: { notShared: ['PHOTOS', 'NOTES', 'WATER'] },
    });
    await grant('LOOK', { place: true, notes: true });
    expect(await told(partner, ids['sire'])).toMatchObject({
      fish: { notShared: ['SCORES', 'PHOTOS', 'PRICES'] },
      spawn: { notShared: ['PHOTOS', 'WATER'] },
    });
    expect(await told(api as unknown as Browser, ids['sire'])).toMatchObject({
      fish: { notShared: [] },
      spawn: { notShared: [] },
    });
  });

  it('tells a parent that is not shared from one that nobody knows', async () => {
    await grant('LOOK');
    const make = newRecords(api);
    const spawnId = await make.createSpawn({ tag: 'OUT-S', sireId: ids['hidden'] ?? '' });
    const young = await make.createFish({
      ...{ tag: 'OUT-1', sex: 'MALE', lineId: ids['line'] ?? '' },
      spawnId,
    });
    expect((await told(partner, young)).fish).toMatchObject({
      namedSire: { id: null, tag: 'not shown', recordShown: false },
      namedDam: null,
    });
    const drawn = `query ($id: ID!) { pedigree(fishId: $id, ancestorGenerations: 2) { fish { tag recordShown } } }`;
    const shownIn = async (browser: Browser) =>
      (await browser.send<{ pedigree: { fish: object[] } }>(drawn, { id: young })).data?.pedigree
        .fish;
    expect(await shownIn(partner)).toContainEqual({ tag: 'not shown', recordShown: false });
    expect(await shownIn(partner)).toContainEqual({ tag: 'OUT-1', recordShown: true });
    expect(await shownIn(api as unknown as Browser)).toContainEqual({
      ...{ tag: 'HIDDEN', recordShown: true },
    });
    const csvOf = async (browser: Browser): Promise<string[]> =>
      (await (await browser.http(`/export/pedigree.csv?line=${ids['line']}`)).text()).split('\n');
    const row = (await csvOf(partner)).find((one) => one.startsWith('OUT-1,'));
    expect(row).toBe(
      'OUT-1,,,male,,LENT,,,spawn and parents not shared with whoever made this file',
    );
    expect((await csvOf(partner))[0]).toMatch(/,note$/);
    expect((await csvOf(api as unknown as Browser))[0]).not.toMatch(/note/);
    await grant('LOOK', { ancestors: true });
    expect((await told(partner, young)).fish).toMatchObject({
      namedSire: { id: null, tag: 'HIDDEN', recordShown: false },
      namedDam: null,
    });
    expect(codeOf(await partner.send(SEEN, { fish: ids['hidden'], spawn: ids['spawn'] }))).toBe(
      'NOT_FOUND',
    );
    await endGrant();
    await grant('LOOK');
    expect((await told(partner, young)).fish.namedSire).toMatchObject({ tag: 'not shown' });
    expect((await told(api as unknown as Browser, young)).fish).toMatchObject({
      namedSire: { tag: 'HIDDEN', recordShown: true },
      namedDam: null,
    });
  });
});

describe('figures that are worked out', () => {
  it('take a parent that is not shared for an unknown one, and for no other fish', async () => {
    const make = newRecords(api);
    const lineId = ids['line'] ?? '';
    const carried = { locusId: 'dt', basis: 'LABORATORY' as const };
    // The first by id of all that the partner sees.
    const id = '00000000-0000-4000-8000-000000000001';
    await make.createFish({ id, tag: 'FIRST', sex: 'MALE', lineId });
    await make.recordGenotype({ ...carried, fishId: id, genotype: 'dt/dt' });
    const spawnId = await make.createSpawn({
      ...{ tag: 'HALF-S', lineId, sireId: ids['hidden'] ?? '' },
    });
    const young = await make.createFish({
      ...{ tag: 'HALF-1', sex: 'MALE', lineId, spawnId },
    });
    await make.recordGenotype({ ...carried, fishId: young, genotype: 'dt/-' });
    await grant('LOOK');
    const asked = `query ($id: ID!) { fishCarriers(fishId: $id) { loci { locusId genotypes { genotype probability } } } }`;
    const ofOwner = await api.send(asked, { id: young });
    const ofPartner = await partner.send(asked, { id: young });
    expect(ofPartner.errors).toBe(undefined);
    expect(ofPartner.data).toEqual(ofOwner.data);
    expect(JSON.stringify(ofOwner.data)).toContain('"locusId":"dt"');
  });
});

describe('a line that was granted to score', () => {
  it('takes scores of its fish under the name of who gave them, and of no other fish', async () => {
    await grant('SCORE');
    await scoreBy(partner, ids['dam'], 38);
    await expect(scoreBy(partner, ids['hidden'])).rejects.toThrow(/NOT_FOUND/);
    const [kept] = (await records.query(
      'SELECT by_account_id AS id, scorer FROM score WHERE value = 38',
    )) as object[];
    expect(kept).toEqual({ id: partner.id, scorer: 'Runa' });
    const [told] = (await records.query(
      'SELECT by_name AS name, by_account_id AS id FROM record_history ORDER BY sequence DESC LIMIT 1',
    )) as object[];
    expect(told).toEqual({ name: 'Runa', id: partner.id });
  });

  it('shows them their own scores alone where scores are not lent, and lets them take back those alone', async () => {
    await grant('SCORE');
    const mine = `query ($id: ID!) { fish(id: $id) { scores { id value } } }`;
    type Mine = { fish: { scores: { id: string; value: number }[] } };
    const { data } = await partner.send<Mine>(mine, { id: ids['dam'] });
    expect(data?.fish.scores.map(({ value }) => value)).toEqual([38]);
    await grant('SCORE', { scores: true });
    const ofOwner = (await partner.send<Mine>(mine, { id: ids['sire'] })).data?.fish.scores[0];
    const withdraw = `mutation ($input: WithdrawInput!) { withdrawScore(input: $input) { id } }`;
    const back = (score: { id: string } | undefined) =>
      partner.send(withdraw, {
        input: { id: score?.id, reason: 'A slip' },
      });
    expect(codeOf(await back(ofOwner))).toBe('NOT_FOUND');
    expect(codeOf(await back(data?.fish.scores[0]))).toBe(undefined);
  });

  it('tells a partner nothing of another, not in scores either', async () => {
    await grant('SCORE', { scores: true });
    await grant('LOOK', { scores: true }, other.id);
    await scoreBy(partner, ids['dam'], 37);
    const { data } = await other.send<Seen>(
      'query ($id: ID!) { fish(id: $id) { scores { value scorer note } } people: lineGrants { person { name } } }',
      { id: ids['dam'] },
    );
    expect(data?.fish.scores[0]).toMatchObject({ value: 37, scorer: 'not shown' });
    expect(JSON.stringify(data)).not.toContain('Runa');
    expect(JSON.stringify((await other.send('{ people { name } }')).data)).not.toContain('Runa');
  });
});

describe('a line that was granted to breed with', () => {
  it('takes planned pairs, spawns and young of their own, and shows them to the owner', async () => {
    await grant('BREED');
    const make = madeBy(partner);
    const pair = { sireId: ids['sire'] ?? '', damId: ids['dam'] ?? '' };
    await make.planPairing({ ...pair, plannedOn: today(), confirmed: true });
    const spawnId = await make.createSpawn({
      ...{
        tag: 'RUNA-1',
        lineId: ids['line'] ?? '',
        ...pair,
        spawnedOn: daysAgo(9),
        note: 'By Runa',
      },
    });
    const [fishId] = await make.addFishToSpawn({ spawnId, number: 1, sex: 'UNSEXED' });
    await make.recordSpawnCount({ spawnId, stage: 'EGGS', number: 80, countedOn: daysAgo(9) });
    const { fish } = await api.graphql<{
      fish: { tag: string; person: { name: string }; inbreeding: object };
    }>('query ($id: ID!) { fish(id: $id) { tag person { name } spawn { tag note } } }', {
      id: fishId,
    });
    expect(fish).toEqual({
      tag: 'RUNA-1-01',
      person: { name: 'Runa' },
      spawn: { tag: 'RUNA-1', note: 'By Runa' },
    });
    const elsewhere = {
      tag: 'RUNA-2',
      ...pair,
      sireId: ids['hidden'] ?? '',
      spawnedOn: daysAgo(9),
    };
    await expect(make.createSpawn(elsewhere)).rejects.toThrow(/no fish/);
    await expect(
      make.createSpawn({ ...pair, tag: 'RUNA-3', spawnedOn: daysAgo(3) }),
    ).rejects.toThrow(/NOT_ALLOWED/);
    await grant('SCORE');
    await expect(make.addFishToSpawn({ spawnId, number: 1, sex: 'UNSEXED' })).rejects.toThrow(
      /NOT_ALLOWED|NOT_FOUND/,
    );
  });
});

describe('what whoever asks may do with a record', () => {
  const RIGHTS = `query ($fish: ID!, $spawn: ID!, $line: ID!) {
    fish(id: $fish) { revision mayChange mayScore scores { id mayChange } }
    spawn(id: $spawn) { revision mayChange } line(id: $line) { revision mayChange mayBreed } }`;
  interface Rights {
    readonly fish: {
      revision: number;
      mayChange: boolean;
      mayScore: boolean;
      scores: { id: string; mayChange: boolean }[];
    };
    readonly spawn: { revision: number; mayChange: boolean };
    readonly line: { revision: number; mayChange: boolean; mayBreed: boolean };
  }
  const done = async (by: Browser, query: string, input: object): Promise<boolean> =>
    (await by.send(query, { input })).errors === undefined;

  /** Told, and then tried: each record is corrected as it is. */
  const toldAndTried = async (by: Browser, of: { fish?: string; spawn?: string }) => {
    const asked = { line: ids['line'], fish: of.fish ?? '', spawn: of.spawn ?? '' };
    const { fish, spawn, line } = (await by.send<Rights>(RIGHTS, asked)).data as Rights;
    const tried = async (kind: 'Fish' | 'Spawn' | 'Line', id = '', revision = 1, more = {}) =>
      done(by, `mutation ($input: Correct${kind}Input!) { correct${kind}(input: $input) { id } }`, {
        ...{ id, revision, ...more },
      });
    const scored = await scoreBy(by, of.fish, 39).then(
      () => true,
      () => false,
    );
    return {
      told: [fish.mayChange, spawn.mayChange, line.mayChange, fish.mayScore, line.mayBreed],
      tried: [
        await tried('Fish', of.fish, fish.revision, { name: `Name of ${fish.revision}` }),
        await tried('Spawn', of.spawn, spawn.revision, { note: `Note of ${spawn.revision}` }),
        await tried('Line', ids['line'], line.revision, { goal: `Goal of ${line.revision}` }),
        scored,
      ],
      scores: fish.scores.map(({ mayChange }) => mayChange),
    };
  };

  it.each([
    ['LOOK', [false, false, false, false, false]],
    ['SCORE', [false, false, false, true, false]],
    ['BREED', [false, false, false, true, true]],
  ] as const)('is told as it is: %s, of the owner’s', async (level, rights) => {
    await grant(level, { scores: true });
    const { told, tried, scores } = await toldAndTried(partner, {
      ...{ fish: ids['sire'] ?? '', spawn: ids['spawn'] ?? '' },
    });
    expect(told).toEqual(rights);
    expect(tried).toEqual(rights.slice(0, 4));
    // The owner's score is there at every level, and never theirs to correct.
    expect(scores).toContain(false);
  });

  it('is told of their own as well, and of everything to the owner', async () => {
    await grant('BREED', { scores: true });
    const make = madeBy(partner);
    const spawn = await make.createSpawn({
      ...{ tag: 'RUNA-7', lineId: ids['line'] ?? '', spawnedOn: daysAgo(9), confirmed: true },
      ...{ sireId: ids['sire'] ?? '', damId: ids['dam'] ?? '' },
    });
    const [fish = ''] = await make.addFishToSpawn({ spawnId: spawn, number: 1, sex: 'UNSEXED' });
    const theirs = await toldAndTried(partner, { fish, spawn });
    expect(theirs.told).toEqual([true, true, false, true, true]);
    expect(theirs.tried).toEqual([true, true, false, true]);
    const again = await toldAndTried(partner, { fish, spawn });
    expect(again.scores).toEqual([true]);
    const asked = { line: ids['line'], fish, spawn };
    const { data } = await api.send<Rights>(RIGHTS, asked);
    expect([data?.fish.mayChange, data?.spawn.mayChange, data?.line.mayChange]).toEqual([
      ...[true, true, true],
    ]);
  });

  it('is told of planned pairs: of their own, and not of the owner’s', async () => {
    await grant('BREED');
    const pair = {
      ...{ sireId: ids['sire'] ?? '', damId: ids['dam'] ?? '' },
      ...{ plannedOn: daysAgo(1), confirmed: true },
    };
    const make = newRecords(api);
    const damId = await make.createFish({ tag: 'DAM-2', sex: 'FEMALE', lineId: ids['line'] ?? '' });
    const owners = await make.planPairing({ ...pair, damId });
    const own = await madeBy(partner).planPairing(pair);
    interface Pairings {
      readonly pairings: { id: string; mayChange: boolean }[];
    }
    const { data } = await partner.send<Pairings>('{ pairings { id mayChange } }');
    const told = new Map(data?.pairings.map(({ id, mayChange }) => [id, mayChange]));
    expect([told.get(owners), told.get(own)]).toEqual([false, true]);
  });

  it('is told of traits and score sheets, which are the owner’s', async () => {
    await grant('BREED', { scores: true });
    const traits = '{ traits { mayChange } }';
    expect((await partner.send(traits)).data).toEqual({ traits: [{ mayChange: false }] });
    expect((await api.send(traits)).data).toEqual({ traits: [{ mayChange: true }] });
  });

  it('is nothing while the owner looks as they do', async () => {
    await grant('BREED', { scores: true });
    const response = await api.http('/graphql', {
      method: 'POST',
      headers: { 'content-type': 'application/json', 'linewright-seen-as': partner.id },
      body: JSON.stringify({ query: '{ fishList(first: 50) { edges { node { mayScore } } } }' }),
    });
    expect(await response.text()).not.toContain('true');
  });
});

describe('a grant that is taken back', () => {
  it('hides the line at once, also in an answer that was kept', async () => {
    await grant('BREED', { scores: true, notes: true, water: true, place: true, photos: true });
    expect((await seenBy(partner)).fish.note).toBe(SECRET);
    await endGrant();
    expect(codeOf(await partner.send(SEEN, { fish: ids['sire'], spawn: ids['spawn'] }))).toBe(
      'NOT_ALLOWED',
    );
    expect((await partner.send('{ lineGrants { level } }')).data).toEqual({ lineGrants: [] });
  });

  it('is taken back with the account, and does not come again with it', async () => {
    const leaving = await joinedAs(api, 'Odd');
    await grant('LOOK', {}, leaving.id);
    await api.graphql('mutation ($id: ID!) { endAccount(personId: $id) { joined } }', {
      id: leaving.id,
    });
    const left = await records.query('SELECT 1 FROM line_grant WHERE account_id = $1', [
      leaving.id,
    ]);
    expect(left).toEqual([]);
  });

  it('is granted to partners alone, by the owner alone', async () => {
    const { session } = await api.graphql<{ session: { person: { id: string } } }>(
      '{ session { person { id } } }',
    );
    const input = { ...NOTHING, level: 'LOOK', lineId: ids['line'] };
    const put = 'mutation ($input: GrantLineInput!) { grantLine(input: $input) { level } }';
    expect(codeOf(await api.send(put, { input: { ...input, personId: session.person.id } }))).toBe(
      'VALIDATION',
    );
    expect(codeOf(await api.send(put, { input: { ...input, personId: randomUUID() } }))).toBe(
      'NOT_FOUND',
    );
    expect(codeOf(await partner.send(put, { input: { ...input, personId: partner.id } }))).toBe(
      'NOT_ALLOWED',
    );
  });
});

describe('looking as a partner', () => {
  const as = async (browser: Browser | RunningApi, query: string, variables: object = {}) => {
    const response = await (browser as RunningApi).http('/graphql', {
      method: 'POST',
      headers: { 'content-type': 'application/json', 'linewright-seen-as': partner.id },
      body: JSON.stringify({ query, variables }),
    });
    return (await response.json()) as GraphqlAnswer<Seen>;
  };

  it('shows the owner what they see, by the same rules, and changes nothing', async () => {
    await grant('SCORE', { notes: true });
    const { data } = await as(api, SEEN, { fish: ids['sire'], spawn: ids['spawn'] });
    expect(data).toEqual(await seenBy(partner));
    expect((await as(api, '{ session { looking role person { name } } }')).data).toEqual({
      session: { looking: true, role: 'PARTNER', person: { name: 'Runa' } },
    });
    const correct = `mutation ($id: ID!) { correctLine(input: { id: $id, revision: 1, name: "Mine" }) { id } }`;
    expect(codeOf(await as(api, correct, { id: ids['line'] }))).toBe('NOT_ALLOWED');
    expect(codeOf(await as(api, 'mutation { signOut { signedIn } }'))).toBe('NOT_ALLOWED');
  });

  it('is the owner’s alone: another’s request is their own', async () => {
    const response = await other.send('{ session { looking person { name } } }');
    expect(response.data).toEqual({ session: { looking: false, person: { name: 'Pelle' } } });
  });
});
