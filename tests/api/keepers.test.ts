import { DataSource } from 'typeorm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { actAs } from '../../apps/api/src/access/acting.js';
import type { AccountRole } from '../../apps/api/src/access/actor.js';
import { daysAgo, today } from '../clock.js';
import { newRecords } from '../new-records.js';
import { recordsOf, type RunningApi, startApi } from './harness.js';
import { askedIn, codeOf, type Joined, joined, madeBy } from './joined.js';

const SECRET = 'Only for Solveig';
const ALL = `{ lines { id code } fishList(first: 50) { totalCount edges { node { tag place } } }
  spawnList(first: 50) { totalCount } }`;
interface All {
  readonly lines: { id: string; code: string }[];
  readonly fishList: { totalCount: number; edges: { node: { tag: string; place: string } }[] };
  readonly spawnList: { totalCount: number };
}

let api: RunningApi;
let records: DataSource;
let solveig: Joined;
let torun: Joined;
let household: Joined;
const ids: Record<string, string> = {};

const tagsSeenBy = async (browser: Joined | RunningApi): Promise<string[]> => {
  const { data } = await browser.send<All>(ALL);
  return data?.fishList.edges.map(({ node }) => node.tag) ?? [];
};

/** A line with two fish, their spawn and all that is noted of them. */
const stockOf = async (browser: Joined, code: string): Promise<Record<string, string>> => {
  const make = madeBy(browser);
  const lineId = await make.createLine({ code, name: `Line of ${browser.name}` });
  const sire = await make.createFish({ tag: `${code}-M`, sex: 'MALE', lineId, note: SECRET });
  const dam = await make.createFish({ tag: `${code}-F`, sex: 'FEMALE', lineId });
  const spawn = await make.createSpawn({
    ...{ tag: `${code}-S`, lineId, sireId: sire, damId: dam, spawnedOn: daysAgo(40) },
    note: SECRET,
  });
  const [young] = await make.addFishToSpawn({ spawnId: spawn, number: 2, sex: 'UNSEXED' });
  const at = `${daysAgo(40)}T08:00:00Z`;
  await make.recordSpawnEvent({ spawnId: spawn, kind: 'SPAWNED', at, note: SECRET });
  await make.recordSpawnCount({
    spawnId: spawn,
    stage: 'EGGS',
    number: 90,
    countedOn: daysAgo(40),
  });
  await make.recordSpawnLoss({
    spawnId: spawn,
    kind: 'DIED',
    number: 2,
    on: daysAgo(30),
    reason: 'weak',
  });
  await make.recordPhenotype({
    fishId: sire,
    locusId: 'dt',
    phenotype: 'double tail',
    seenOn: today(),
  });
  await make.recordScores({
    ...{ fishId: sire, scoredOn: today() },
    scores: [{ traitId: ids['trait'] ?? '', value: 41, note: SECRET }],
  });
  await make.planPairing({ sireId: sire, damId: dam, plannedOn: today(), confirmed: true });
  return { lineId, sire, dam, spawn, young: young! };
};

beforeAll(async () => {
  api = await startApi();
  records = await recordsOf(api);
  const make = newRecords(api);
  ids['trait'] = await make.createTrait({
    key: 'length',
    name: 'Length',
    kind: 'MEASURED',
    unit: 'mm',
  });
  ids['ownersLine'] = await make.createLine({ code: 'HOUSE', name: 'Of the house' });
  await make.createFish({ tag: 'HOUSE-1', sex: 'MALE', lineId: ids['ownersLine'] });
  solveig = await joined(api, 'Solveig', 'KEEPER');
  torun = await joined(api, 'Torun', 'KEEPER');
  household = await joined(api, 'Hanna', 'HOUSEHOLD');
  Object.assign(ids, await stockOf(solveig, 'SOL'));
});
afterAll(() => api.close());

describe('a keeper', () => {
  it('keeps a line of their own with all that belongs to it, and their fish swim with themselves', async () => {
    const seen = await askedIn<All>(solveig, ALL);
    expect(seen.lines).toEqual([{ id: ids['lineId'], code: 'SOL' }]);
    expect(seen.fishList.totalCount).toBe(4);
    expect(new Set(seen.fishList.edges.map(({ node }) => node.place))).toEqual(new Set(['HERE']));
    const whole = `query ($fish: ID!, $spawn: ID!) {
      fish(id: $fish) { note scores { value note } } spawn(id: $spawn) { note events { note } } }`;
    const { fish, spawn } = await askedIn<{
      fish: { note: string; scores: object[] };
      spawn: { note: string; events: object[] };
    }>(solveig, whole, { fish: ids['sire'], spawn: ids['spawn'] });
    expect(fish).toEqual({ note: SECRET, scores: [{ value: 41, note: SECRET }] });
    expect(spawn).toEqual({ note: SECRET, events: [{ note: SECRET }] });
  });

  it('is seen by nobody: not by the owner, the household, or another keeper', async () => {
    const torunsLine = await madeBy(torun).createLine({ code: 'SOL', name: 'The same code' });
    expect(await tagsSeenBy(api)).toEqual(['HOUSE-1']);
    expect(await tagsSeenBy(household)).toEqual(['HOUSE-1']);
    expect(await tagsSeenBy(torun)).toEqual([]);
    const { lines } = await askedIn<All>(torun, ALL);
    expect(lines.map(({ id }) => id)).toEqual([torunsLine]);
  });

  it('is hidden by the database itself, table by table, whatever a query asks for', async () => {
    const of = async (browser: RunningApi | Joined, query: string) =>
      JSON.stringify(await browser.send(query, { id: ids['sire'], spawn: ids['spawn'] }));
    const asked = [
      'query ($id: ID!) { fish(id: $id) { tag } }',
      'query ($id: ID!) { pedigree(fishId: $id, ancestorGenerations: 1, descendantGenerations: 1) { fish { tag } } }',
      'query ($id: ID!) { inbreedingSources(fishId: $id) { __typename } }',
      'query ($spawn: ID!) { spawn(id: $spawn) { tag } }',
      'query ($id: ID!) { history(recordKind: FISH, recordId: $id, first: 5) { edges { node { byName } } } }',
      '{ pairings { id sire { tag } } }',
    ];
    for (const browser of [api, household, torun])
      for (const query of asked)
        for (const word of ['SOL-', 'Solveig', SECRET])
          expect([query, await of(browser, query)]).not.toEqual([
            query,
            expect.stringContaining(word),
          ]);
  });

  it('changes nothing of the owner’s, and the owner nothing of theirs', async () => {
    const rename =
      'mutation ($id: ID!) { correctLine(input: { id: $id, revision: 1, name: "Mine" }) { id } }';
    expect(codeOf(await solveig.send(rename, { id: ids['ownersLine'] }))).toBe('NOT_FOUND');
    expect(codeOf(await api.send(rename, { id: ids['lineId'] }))).toBe('NOT_FOUND');
    const fish = { tag: 'SOL-X', sex: 'MALE' as const };
    await expect(madeBy(solveig).createFish(fish)).rejects.toThrow(/NOT_ALLOWED/);
    await expect(
      madeBy(solveig).createFish({ ...fish, lineId: ids['ownersLine'] ?? '' }),
    ).rejects.toThrow(/NOT_FOUND|NOT_ALLOWED|no line/);
    await expect(
      newRecords(api).createFish({ ...fish, lineId: ids['lineId'] ?? '' }),
    ).rejects.toThrow();
  });

  it('does not know people, accounts, backups or the demo', async () => {
    const { people } = await askedIn<{ people: { name: string }[] }>(
      solveig,
      '{ people { name } }',
    );
    expect(people.map(({ name }) => name).sort()).toEqual(['Solveig', 'Test keeper']);
    expect(codeOf(await solveig.send('{ accounts { joined } }'))).toBe('NOT_ALLOWED');
  });

  it('is not looked at by the owner as what they see', async () => {
    const response = await api.http('/graphql', {
      method: 'POST',
      headers: { 'content-type': 'application/json', 'linewright-seen-as': solveig.id },
      body: JSON.stringify({ query: ALL }),
    });
    expect(await response.text()).not.toContain('SOL-');
  });
});

describe('a line that a keeper lends', () => {
  const grant = `mutation ($input: GrantLineInput!) { grantLine(input: $input) { level person { name } } }`;
  const input = (personId: string, lineId = ids['lineId']) => ({
    input: {
      ...{ personId, lineId, level: 'LOOK' },
      ...{ scores: false, photos: false, notes: false, water: false, place: false },
    },
  });

  it('is lent by the keeper alone, to whom they know of', async () => {
    expect(codeOf(await api.send(grant, input(torun.id)))).toBe('NOT_FOUND');
    expect(codeOf(await torun.send(grant, input(torun.id)))).toBe('VALIDATION');
    expect(codeOf(await solveig.send(grant, input(torun.id)))).toBe('NOT_FOUND');
    expect(codeOf(await solveig.send(grant, input(torun.id, ids['ownersLine'])))).toBe('NOT_FOUND');
    // The owner is known to everybody, and sees the records of the house.
    const [owner] = (await records.query('SELECT id FROM person WHERE here')) as { id: string }[];
    expect(codeOf(await solveig.send(grant, input(owner?.id ?? '')))).toBe('VALIDATION');
  });

  it('shows what was lent and whose it is, and ends with the account, also of a line that the owner does not see', async () => {
    await records.query(
      `INSERT INTO line_grant (account_id, line_id, level, by_account_id) VALUES ($1, $2, 'look', $3)`,
      [torun.id, ids['lineId'], solveig.id],
    );
    expect((await tagsSeenBy(torun)).sort()).toEqual(['SOL-F', 'SOL-M', 'SOL-S-01', 'SOL-S-02']);
    const { data } = await torun.send(
      'query ($id: ID!) { fish(id: $id) { note mayChange person { name } } }',
      {
        id: ids['sire'],
      },
    );
    expect(data).toEqual({ fish: { note: null, mayChange: false, person: { name: 'Solveig' } } });
    const own = await solveig.send('query ($id: ID!) { fish(id: $id) { mayChange mayScore } }', {
      id: ids['sire'],
    });
    expect(own.data).toEqual({ fish: { mayChange: true, mayScore: true } });
    expect(await tagsSeenBy(api)).toEqual(['HOUSE-1']);
    const grants = '{ lineGrants { line { code } person { name } } }';
    expect((await api.send(grants)).data).toEqual({ lineGrants: [] });
    expect((await solveig.send(grants)).data).toEqual({
      lineGrants: [{ line: { code: 'SOL' }, person: { name: 'Torun' } }],
    });
    await api.graphql('mutation ($id: ID!) { endAccount(personId: $id) { joined } }', {
      id: torun.id,
    });
    expect(await records.query('SELECT 1 FROM line_grant')).toEqual([]);
  });
});

describe('a fish between a keeper and the household', () => {
  const OFFER = `mutation ($input: OfferFishInput!) { offerFish(input: $input) { id } }`;
  const ACCEPT = `mutation ($input: AcceptFishInput!) { acceptFish(input: $input) { state } }`;
  const BACK = `mutation ($input: LoanReturnInput!) { endLoan(input: $input) { state } }`;
  const HANDED = `query ($id: ID!) { fish(id: $id) { tag line { code } spawn { tag } scores { value } } }`;
  const DUE = '{ handOversDue { tag state side from { name } } }';
  const lend = async (more: object): Promise<string> => {
    const kind = { fishIds: [ids['sire']], kind: 'LOAN', backOn: daysAgo(-9) };
    const { offerFish } = await askedIn<{ offerFish: { id: string }[] }>(solveig, OFFER, {
      input: { ...kind, ...more },
    });
    return offerFish[0]!.id;
  };
  const scoresOf = async (browser: RunningApi | Joined): Promise<number[]> => {
    const { data } = await browser.send<{ fish: { scores: { value: number }[] } }>(HANDED, {
      id: ids['sire'],
    });
    return data!.fish.scores.map(({ value }) => value).sort();
  };
  const photosSeenBy = async (browser: RunningApi | Joined): Promise<number> => {
    const { data } = await browser.send<{ fish: { photos: object[] } }>(
      'query ($id: ID!) { fish(id: $id) { photos { id } } }',
      { id: ids['sire'] },
    );
    return data!.fish.photos.length;
  };

  const notSharedWith = async (browser: RunningApi | Joined): Promise<string[]> => {
    const { data } = await browser.send<{ fish: { notShared: string[] } }>(
      'query ($id: ID!) { fish(id: $id) { notShared } }',
      { id: ids['sire'] },
    );
    return data!.fish.notShared;
  };

  it('is offered to all of the household, and shows them what was to go along and no more', async () => {
    await records.query(
      `INSERT INTO photo (id, subject_kind, subject_id, fish_id, media_type, bytes, width, height, sha256, by_account_id)
       VALUES (gen_random_uuid(), 'fish', $1, $1, 'image/png', 1, 1, 1, $3, $2)`,
      [ids['sire'], solveig.id, '0'.repeat(64)],
    );
    // By the name of one of them: what is theirs is the household's.
    const id = await lend({ toName: 'Hanna' });
    const due = { tag: 'SOL-M', state: 'OFFERED', side: 'RECEIVER', from: { name: 'Solveig' } };
    for (const browser of [api, household]) {
      expect((await browser.send(DUE)).data).toEqual({ handOversDue: [due] });
      expect(codeOf(await browser.send(HANDED, { id: ids['sire'] }))).toBe('NOT_FOUND');
    }
    await askedIn(household, ACCEPT, { input: { ids: [id] } });
    await madeBy(household).recordScores({
      ...{ fishId: ids['sire'] ?? '', scoredOn: today() },
      scores: [{ traitId: ids['trait'] ?? '', value: 40 }],
    });
    for (const browser of [api, household]) {
      expect((await browser.send(HANDED, { id: ids['sire'] })).data).toEqual({
        fish: { tag: 'SOL-M', line: null, spawn: null, scores: [{ value: 40 }] },
      });
      expect(await photosSeenBy(browser)).toBe(0);
      expect(await notSharedWith(browser)).toEqual(['SCORES', 'PHOTOS']);
      expect((await tagsSeenBy(browser)).sort()).toEqual(['HOUSE-1', 'SOL-M']);
    }
    expect(await scoresOf(solveig)).toEqual([40, 41]);
    await askedIn(solveig, BACK, { input: { id, as: 'CAME_BACK', on: today() } });
    for (const browser of [api, household]) expect(await tagsSeenBy(browser)).toEqual(['HOUSE-1']);
  });

  it('takes along the scores and photos that were to go along', async () => {
    const [owner] = (await records.query('SELECT id FROM person WHERE here')) as { id: string }[];
    const id = await lend({ toId: owner?.id, withScores: true, withPhotos: true });
    await askedIn(household, ACCEPT, { input: { ids: [id] } });
    for (const browser of [api, household]) {
      expect(await scoresOf(browser)).toEqual([40, 41]);
      expect(await photosSeenBy(browser)).toBe(1);
      expect(await notSharedWith(browser)).toEqual([]);
    }
    await askedIn(solveig, BACK, { input: { id, as: 'CAME_BACK', on: today() } });
  });

  it('goes from the household to a keeper and back, by whoever of the household is there', async () => {
    const [fish] = (await records.query(`SELECT id FROM fish WHERE tag = 'HOUSE-1'`)) as {
      id: string;
    }[];
    const loan = { fishIds: [fish?.id], kind: 'LOAN', backOn: daysAgo(-9), toId: solveig.id };
    const { offerFish } = await askedIn<{ offerFish: { id: string }[] }>(household, OFFER, {
      input: loan,
    });
    const { id } = offerFish[0]!;
    await askedIn(solveig, ACCEPT, { input: { ids: [id] } });
    expect((await tagsSeenBy(solveig)).includes('HOUSE-1')).toBe(true);
    const said = 'mutation ($input: LoanReturnInput!) { sayLoanReturned(input: $input) { state } }';
    const back = { input: { id, as: 'CAME_BACK', on: today() } };
    await askedIn(solveig, said, back);
    expect((await household.send(DUE)).data).toMatchObject({
      handOversDue: [{ tag: 'HOUSE-1', state: 'RETURNING', side: 'GIVER' }],
    });
    await askedIn(household, BACK, back);
    expect((await tagsSeenBy(solveig)).includes('HOUSE-1')).toBe(false);
  });

  it('shows nobody else the claims between two keepers', async () => {
    await records.query(
      `INSERT INTO fish_claim (id, fish_id, tag, by_id, to_id, claimed_on) VALUES (gen_random_uuid(), $1, 'SOL-F', $2, $2, $3)`,
      [ids['dam'], solveig.id, today()],
    );
    const [owner] = (await records.query('SELECT id FROM person WHERE here')) as { id: string }[];
    const product = api.served.app.get(DataSource);
    const seenBy = (id: string, role: AccountRole) =>
      actAs({ kind: 'account', id, name: role, role, amongKeepers: true }, () =>
        product.query('SELECT tag FROM fish_claim'),
      );
    expect(await seenBy(owner?.id ?? '', 'owner')).toEqual([]);
    expect(await seenBy(household.id, 'household')).toEqual([]);
    expect(await seenBy(solveig.id, 'keeper')).toEqual([{ tag: 'SOL-F' }]);
  });
});

describe('a keeper who leaves', () => {
  it('leaves their records shut, and finds them again with a new link', async () => {
    await api.graphql('mutation ($id: ID!) { endAccount(personId: $id) { joined } }', {
      id: solveig.id,
    });
    expect(await tagsSeenBy(api)).toEqual(['HOUSE-1']);
    const { invitePerson } = await api.graphql<{ invitePerson: { path: string } }>(
      'mutation ($input: InvitePersonInput!) { invitePerson(input: $input) { path } }',
      { input: { name: 'Solveig', role: 'KEEPER', personId: solveig.id } },
    );
    await solveig.send(
      'mutation ($input: AcceptInvitationInput!) { acceptInvitation(input: $input) { signedIn } }',
      { input: { token: invitePerson.path.slice('/join#'.length), password: 'four green snails' } },
    );
    expect((await tagsSeenBy(solveig)).sort()).toEqual(['SOL-F', 'SOL-M', 'SOL-S-01', 'SOL-S-02']);
  });
});
