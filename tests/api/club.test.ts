import type { DataSource } from 'typeorm';
import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAgo, today } from '../clock.js';
import { newRecords } from '../new-records.js';
import { recordsOf, type RunningApi, startApi } from './harness.js';
import { askedIn, codeOf, type Joined, joined, madeBy } from './joined.js';
import type { Browser } from './other-browser.js';

const CLUB = `query ($lineId: ID) { club(lineId: $lineId) {
  lines { id code name keeper { id name } mine shown inUse looks kinship atLeast } linesLeftOut
  founders { fish { tag } unknownParent shares chances onlyIn } foundersLeftOut drops } }`;
const CONSENT =
  'mutation ($input: ClubConsentInput!) { setClubConsent(input: $input) { shown counted } }';
const ASK = `mutation ($input: AskClubInput!) { askClub(input: $input) { id state mine lineName } }`;
const REQUESTS = `{ clubRequests(first: 9) { totalCount edges { node {
  id what words state answer mine lineName from { name } to { name } } } } }`;
const ANSWER =
  'mutation ($input: AnswerClubRequestInput!) { answerClubRequest(input: $input) { state answer } }';
const BECAME =
  '{ clubRequests(first: 9) { totalCount edges { node { id handOvers { tag state endedAs } } } } }';
const OFFER = `mutation ($input: OfferFishInput!) { offerFish(input: $input) { id request { id what mine } } }`;
const WITHDRAW = 'mutation ($id: ID!) { withdrawClubRequest(requestId: $id) { state } }';

interface ClubLine {
  readonly id: string;
  readonly code: string;
  readonly keeper: { id: string; name: string };
  readonly mine: boolean;
  readonly shown: boolean;
  readonly inUse: number;
  readonly looks: string[];
  readonly kinship: (number | null)[];
}
interface Club {
  readonly club: {
    lines: ClubLine[];
    founders: {
      fish: { tag: string } | null;
      shares: number[];
      chances: number[];
      onlyIn: string | null;
    }[];
  };
}
interface Requests {
  readonly clubRequests: { totalCount: number; edges: { node: Record<string, unknown> }[] };
}

let api: RunningApi;
let records: DataSource;
let ada: Joined;
let bo: Joined;
let cy: Joined;
let partner: Joined;
const ids: Record<string, string> = {};

const clubOf = (browser: Browser, lineId: string | null = null) =>
  askedIn<Club>(browser, CLUB, { lineId });
const consent = (browser: Browser, lineId: string, shown: boolean, counted = false) =>
  browser.send(CONSENT, { input: { lineId, shown, counted } });

/** Founders and their young, all kept, of a line of one's own. */
const lineOf = async (browser: Browser, code: string): Promise<string[]> => {
  const make = madeBy(browser);
  const lineId = await make.createLine({ code, name: `${code} line` });
  const parents = { declaredUnrelated: true, lineId };
  const sireId = await make.createFish({ tag: `${code}-M`, sex: 'MALE', ...parents });
  const damId = await make.createFish({ tag: `${code}-F`, sex: 'FEMALE', ...parents });
  const young: string[] = [];
  for (const sex of ['MALE', 'FEMALE'] as const)
    young.push(await make.createFish({ tag: `${code}-${sex}`, sex, sireId, damId, lineId }));
  for (const id of [sireId, damId, ...young]) await keep(browser, id);
  return [lineId, sireId, damId, ...young];
};

const keep = (browser: Browser, id: string): Promise<unknown> =>
  askedIn(browser, 'mutation ($input: DecideFishInput!) { decideFish(input: $input) { id } }', {
    input: { id, disposition: 'KEEPER', on: today() },
  });

beforeAll(async () => {
  api = await startApi();
  records = await recordsOf(api);
  ada = await joined(api, 'Ada', 'KEEPER');
  bo = await joined(api, 'Bodil', 'KEEPER');
  cy = await joined(api, 'Cyra', 'KEEPER');
  partner = await joined(api, 'Pelle', 'PARTNER');
  [ids['ada'] = '', ids['adaSire'] = '', ids['adaDam'] = ''] = await lineOf(ada, 'ADA');
  [ids['bo'] = '', ids['boSire'] = '', ids['boDam'] = ''] = await lineOf(bo, 'BO');
  [ids['cy'] = ''] = await lineOf(cy, 'CY');
  const make = newRecords(api);
  ids['house'] = await make.createLine({ code: 'HOUSE', name: 'Of the house' });
  await records.query(
    `INSERT INTO line_grant (account_id, line_id, level) VALUES ($1, $2, 'look')`,
    [partner.id, ids['house']],
  );
});
afterAll(() => api.close());

describe('a line', () => {
  it('is known to the club only once its keeper says so, and to nobody from the moment it is taken back', async () => {
    for (const browser of [api, bo, partner])
      expect((await clubOf(browser)).club.lines).toEqual([]);
    await consent(ada, ids['ada']!, true);
    for (const browser of [api, bo, partner]) {
      const { lines } = (await clubOf(browser)).club;
      expect(lines).toMatchObject([
        { code: 'ADA', keeper: { name: 'Ada' }, mine: false, shown: true, inUse: 4 },
      ]);
    }
    await consent(ada, ids['ada']!, false);
    for (const browser of [api, bo, partner])
      expect((await clubOf(browser)).club.lines).toEqual([]);
  });

  it('is its keeper’s alone to show', async () => {
    for (const browser of [api, bo])
      expect(codeOf(await consent(browser, ids['ada']!, true))).toBe('NOT_FOUND');
    expect(codeOf(await consent(partner, ids['house']!, true))).toBe('NOT_ALLOWED');
    expect(codeOf(await bo.send(CLUB, { lineId: ids['ada'] }))).toBe('NOT_FOUND');
    expect(codeOf(await bo.send(CLUB, { lineId: randomUUID() }))).toBe('NOT_FOUND');
    const asked = 'query ($id: ID!) { clubConsent(lineId: $id) { shown } }';
    expect((await partner.send(asked, { id: ids['house'] })).data).toEqual({ clubConsent: null });
    expect(codeOf(await bo.send(asked, { id: ids['ada'] }))).toBe('NOT_FOUND');
  });

  it('tells no fish of its own, their tags or ids, to whoever may not see them', async () => {
    await consent(ada, ids['ada']!, true);
    const text = JSON.stringify(await clubOf(bo, ids['bo']));
    for (const word of ['ADA-M', 'ADA-F', ids['adaSire']!, ids['adaDam']!])
      expect(text).not.toContain(word);
    expect(JSON.stringify(await clubOf(ada))).toContain('ADA-M');
    expect(
      codeOf(await bo.send('query ($id: ID!) { line(id: $id) { code } }', { id: ids['ada'] })),
    ).toBe('NOT_FOUND');
  });
});

describe('kinship between lines of several keepers', () => {
  it('is the mean coancestry of their fish in use, and an outcross is found where it is lowest', async () => {
    // A fish of Ada's line goes to Bodil as the sire of a brood: half of its young's genes are Ada's.
    await records.query(
      `INSERT INTO line_grant (account_id, line_id, level) VALUES ($1, $2, 'breed')`,
      [bo.id, ids['ada']],
    );
    const bred = await madeBy(bo).createFish({
      ...{ tag: 'BO-X', sex: 'MALE', lineId: ids['bo'] ?? '' },
      ...{ sireId: ids['adaSire'] ?? '', damId: ids['boDam'] ?? '' },
    });
    await keep(bo, bred);
    await records.query('DELETE FROM line_grant WHERE account_id = $1', [bo.id]);
    for (const [browser, line] of [
      [bo, 'bo'],
      [cy, 'cy'],
    ] as const)
      await consent(browser, ids[line]!, true);
    const { lines, founders } = (await clubOf(ada, ids['ada'])).club;
    // Of Ada's M, F and their two young with BO-X: 1/4, 0, 1/8 and 1/8; with Bodil's four others nothing.
    const withBo = (1 / 4 + 0 + 1 / 8 + 1 / 8) / 4 / 5;
    // Two founders and two full sibs: 1/2 each with itself, 1/4 parent with young and between sibs.
    const own = (4 * 0.5 + 2 * (5 * 0.25)) / 16;
    expect(lines.map(({ code }) => code)).toEqual(['ADA', 'CY', 'BO']);
    expect(lines[0]!.kinship[0]).toBeCloseTo(own, 12);
    expect(lines[0]!.kinship.slice(1)).toEqual([0, expect.closeTo(withBo, 12)]);
    expect(lines[2]!.kinship[0]).toBeCloseTo(withBo, 12);
    const bySire = founders.find(({ fish }) => fish?.tag === 'ADA-M');
    expect(bySire?.onlyIn).toBe(null);
    expect(bySire?.shares).toEqual([1 / 2, 0, expect.closeTo(1 / 10, 12)]);
    expect(founders.find(({ fish }) => fish?.tag === 'ADA-F')?.onlyIn).toBe(ids['ada']);
    expect(founders).toHaveLength(6);
    expect(founders.filter(({ fish }) => fish === null)).toHaveLength(4);
  });

  it('tells looks that several fish have, and none of a single one', async () => {
    const make = madeBy(cy);
    const { data } = await cy.send<{ fishList: { edges: { node: { id: string } }[] } }>(
      '{ fishList(first: 9) { edges { node { id } } } }',
    );
    const fish = data!.fishList.edges.map(({ node }) => node.id);
    const note = (fishId: string, phenotype: string, locusId: string) =>
      make.recordPhenotype({ fishId, locusId, phenotype, seenOn: today() });
    for (const id of fish.slice(0, 3)) await note(id, 'double tail', 'dt');
    await note(fish[0]!, 'not melano', 'm');
    const { lines } = (await clubOf(ada)).club;
    expect(lines.find(({ code }) => code === 'CY')?.looks).toEqual([
      expect.stringMatching(/^Double tail: double$/i),
    ]);
  });
});

describe('a request', () => {
  const ask = (browser: Browser, lineId = ids['ada'], what = 'LOAN') =>
    browser.send<{ askClub: { id: string } }>(ASK, {
      input: { lineId, what, words: 'A male for one brood?' },
    });

  it('goes to whoever shows the line, and is answered there', async () => {
    const asked = await ask(partner);
    const id = asked.data?.askClub.id ?? '';
    expect(asked.data).toMatchObject({
      askClub: { state: 'open'.toUpperCase(), mine: true, lineName: 'ADA ADA line' },
    });
    const got = await askedIn<Requests>(ada, REQUESTS);
    expect(got.clubRequests.edges.map(({ node }) => node)).toEqual([
      {
        ...{ id, what: 'LOAN', words: 'A male for one brood?', state: 'OPEN', answer: null },
        ...{ mine: false, lineName: 'ADA ADA line', from: { name: 'Pelle' }, to: { name: 'Ada' } },
      },
    ]);
    for (const browser of [api, bo, cy]) {
      expect((await askedIn<Requests>(browser, REQUESTS)).clubRequests.totalCount).toBe(0);
      for (const [query, variables] of [
        [ANSWER, { input: { requestId: id, yes: true } }],
        [WITHDRAW, { id }],
      ] as const)
        expect(codeOf(await browser.send(query, variables))).toBe('NOT_FOUND');
    }
    // Neither answers their own, nor withdraws another's.
    expect(codeOf(await partner.send(ANSWER, { input: { requestId: id, yes: true } }))).toBe(
      'NOT_FOUND',
    );
    expect(codeOf(await ada.send(WITHDRAW, { id }))).toBe('NOT_FOUND');
    const yes = { input: { requestId: id, yes: true, words: 'Come on Sunday' } };
    expect((await ada.send(ANSWER, yes)).data).toEqual({
      answerClubRequest: { state: 'YES', answer: 'Come on Sunday' },
    });
    expect(codeOf(await ada.send(ANSWER, yes))).toBe('CONFLICT_REVISION');
    expect((await askedIn<Requests>(partner, REQUESTS)).clubRequests.edges[0]?.node).toMatchObject({
      ...{ state: 'YES', answer: 'Come on Sunday', mine: true },
    });
  });

  it('that was answered yes shows what became of it, and the fish offered for it show the request', async () => {
    const [newLine = '', , , male = '', female = ''] = await lineOf(ada, 'LENT');
    await consent(ada, newLine, true);
    const asked = async (what: string) => (await ask(partner, newLine, what)).data!.askClub.id;
    const say = (requestId: string, yes: boolean) =>
      askedIn(ada, ANSWER, { input: { requestId, yes } });
    const loan = { kind: 'LOAN', backOn: daysAgo(-9) };
    const offer = (browser: Browser, requestId: string, fishId: string, more: object) =>
      browser.send<{ offerFish: { id: string; request: object | null }[] }>(OFFER, {
        input: { requestId, fishIds: [fishId], toId: partner.id, ...more },
      });
    const became = async (browser: Browser, id: string) => {
      const { clubRequests } = await askedIn<Requests>(browser, BECAME);
      return clubRequests.edges.find(({ node }) => node['id'] === id)?.node['handOvers'];
    };
    const id = await asked('LOAN');
    expect(codeOf(await offer(ada, id, male, loan))).toBe('VALIDATION');
    await say(id, true);
    // Of somebody else, of another kind, to somebody else, or of nothing: refused.
    expect(
      codeOf(await offer(bo, id, ids['boSire']!, { ...loan, toId: null, toName: 'Pelle' })),
    ).toBe('NOT_FOUND');
    expect(codeOf(await offer(ada, randomUUID(), male, loan))).toBe('NOT_FOUND');
    expect(codeOf(await offer(ada, id, male, { kind: 'GIFT' }))).toBe('VALIDATION');
    expect(codeOf(await offer(ada, id, male, { ...loan, toId: cy.id }))).toBe('VALIDATION');
    expect(await became(ada, id)).toEqual([]);
    const first = (await offer(ada, id, male, loan)).data!.offerFish[0]!;
    expect(first.request).toEqual({ id, what: 'LOAN', mine: false });
    for (const browser of [ada, partner])
      expect(await became(browser, id)).toEqual([
        { tag: 'LENT-MALE', state: 'OFFERED', endedAs: null },
      ]);
    const tookBack = 'mutation ($ids: [ID!]!) { takeBackOffers(ids: $ids) { state } }';
    await askedIn(ada, tookBack, { ids: [first.id] });
    const second = (await offer(ada, id, male, loan)).data!.offerFish[0]!;
    await askedIn(
      partner,
      'mutation ($input: AcceptFishInput!) { acceptFish(input: $input) { request { mine } } }',
      { input: { ids: [second.id] } },
    );
    const takenBack = { tag: 'LENT-MALE', state: 'TAKEN_BACK', endedAs: null };
    expect(await became(partner, id)).toEqual([
      takenBack,
      { tag: 'LENT-MALE', state: 'MOVED', endedAs: null },
    ]);
    await askedIn(ada, 'mutation ($input: LoanReturnInput!) { endLoan(input: $input) { state } }', {
      input: { id: second.id, as: 'CAME_BACK', on: today() },
    });
    expect(await became(partner, id)).toEqual([
      takenBack,
      { tag: 'LENT-MALE', state: 'ENDED', endedAs: 'CAME_BACK' },
    ]);
    // For a stud either lends to the other; a fish that is asked for is given.
    const stud = await asked('STUD');
    await say(stud, true);
    expect(codeOf(await offer(ada, stud, male, loan))).toBeUndefined();
    const wanted = await asked('FISH');
    await say(wanted, true);
    expect(codeOf(await offer(ada, wanted, female, loan))).toBe('VALIDATION');
    expect(codeOf(await offer(ada, wanted, female, { kind: 'SALE' }))).toBeUndefined();
    // Who else sees the fish is not told of the request.
    const handed = 'query ($id: ID!) { handOver(id: $id) { request { id } } }';
    for (const browser of [api, bo])
      expect(codeOf(await browser.send(handed, { id: second.id }))).toBe('NOT_FOUND');
  });

  it('is withdrawn by whoever made it, and is not made of a line that is not shown or is one’s own', async () => {
    const id = (await ask(cy)).data?.askClub.id;
    expect((await cy.send(WITHDRAW, { id })).data).toEqual({
      withdrawClubRequest: { state: 'WITHDRAWN' },
    });
    expect(codeOf(await ask(cy, ids['house']))).toBe('NOT_FOUND');
    expect(codeOf(await ask(cy, randomUUID()))).toBe('NOT_FOUND');
    expect(codeOf(await ask(ada))).toBe('VALIDATION');
  });

  it('lets the keeper who got it share a line with whoever asked', async () => {
    const input = {
      ...{ personId: cy.id, lineId: ids['ada'], level: 'LOOK' },
      ...{ scores: false, photos: false, notes: false, water: false, place: false },
    };
    const grant =
      'mutation ($input: GrantLineInput!) { grantLine(input: $input) { person { name } } }';
    expect((await ada.send(grant, { input })).data).toEqual({
      grantLine: [{ person: { name: 'Cyra' } }],
    });
  });
});

describe('a comment', () => {
  const ADD = `mutation ($input: AddCommentInput!) { addComment(input: $input) { id revision mine } }`;
  const LIST = `query ($fishId: ID) { comments(fishId: $fishId, first: 9) { edges { node { words mine person { name } } } } }`;
  const listed = async (browser: Browser) =>
    (
      await browser.send<{ comments: { edges: { node: object }[] } }>(LIST, {
        fishId: ids['adaSire'],
      })
    ).data?.comments.edges.map(({ node }) => node);

  it('is written by whoever may look, and seen by them alone', async () => {
    const input = { fishId: ids['adaSire'], words: 'A fine broad male' };
    for (const browser of [api, bo, partner]) {
      expect(codeOf(await browser.send(ADD, { input }))).toBe('NOT_FOUND');
      expect(codeOf(await browser.send(LIST, { fishId: ids['adaSire'] }))).toBe('NOT_FOUND');
    }
    const added = await cy.send<{ addComment: { id: string } }>(ADD, { input });
    ids['comment'] = added.data?.addComment.id ?? '';
    expect(await listed(ada)).toEqual([
      { words: 'A fine broad male', mine: false, person: { name: 'Cyra' } },
    ]);
    expect(await listed(cy)).toMatchObject([{ mine: true }]);
    const both = { ...input, spawnId: randomUUID() };
    expect(codeOf(await cy.send(ADD, { input: both }))).toBe('VALIDATION');
  });

  it('is corrected and withdrawn by its author alone, with a history', async () => {
    const correct =
      'mutation ($input: CorrectCommentInput!) { correctComment(input: $input) { words } }';
    const withdraw = 'mutation ($input: WithdrawInput!) { withdrawComment(input: $input) { id } }';
    const changed = { input: { id: ids['comment'], revision: 1, words: 'Broad, but short' } };
    const gone = { input: { id: ids['comment'], reason: 'The wrong fish' } };
    for (const [query, variables] of [
      [correct, changed],
      [withdraw, gone],
    ] as const)
      for (const browser of [api, ada, bo])
        expect(codeOf(await browser.send(query, variables))).toBe('NOT_FOUND');
    expect((await cy.send(correct, changed)).data).toEqual({
      correctComment: { words: 'Broad, but short' },
    });
    expect(codeOf(await cy.send(withdraw, gone))).toBe(undefined);
    expect(await listed(ada)).toEqual([]);
    const told = await records.query(
      `SELECT action, by_account_id AS id FROM record_history WHERE record_id = $1 ORDER BY revision`,
      [ids['comment']],
    );
    expect(told).toEqual(
      ['recorded', 'corrected', 'withdrawn'].map((action) => ({ action, id: cy.id })),
    );
  });
});

describe('figures over several keepers', () => {
  const LOAD = '{ clubLoad { stage keepers lines broods whyNot costs { column perGamete } } }';
  interface Load {
    readonly clubLoad: {
      stage: string;
      keepers: number;
      broods: number;
      whyNot: string | null;
      costs: object[];
    }[];
  }
  const hatch = async (browser: Browser) =>
    (await askedIn<Load>(browser, LOAD)).clubLoad.find(({ stage }) => stage === 'HATCH')!;

  /** Outbred and inbred broods, counted at both ends of the first stage. */
  const broods = async (browser: Browser, code: string, lineId: string): Promise<void> => {
    const make = madeBy(browser);
    const { data } = await browser.send<{
      fishList: { edges: { node: { id: string; tag: string } }[] };
    }>('{ fishList(first: 30) { edges { node { id tag } } } }');
    const id = (tag: string) => data!.fishList.edges.find(({ node }) => node.tag === tag)!.node.id;
    for (const [k, [sire, dam, alive]] of (
      [
        ['M', 'F', 92],
        ['M', 'F', 95],
        ['M', 'F', 90],
        ['MALE', 'FEMALE', 55],
        ['MALE', 'FEMALE', 60],
        ['MALE', 'FEMALE', 58],
      ] as const
    ).entries()) {
      const spawnId = await make.createSpawn({
        ...{
          tag: `${code}-S${k}`,
          lineId,
          sireId: id(`${code}-${sire}`),
          damId: id(`${code}-${dam}`),
        },
        ...{ spawnedOn: daysAgo(40 + 20 * k), confirmed: true },
      });
      const on = daysAgo(39 + 20 * k);
      await make.recordSpawnCount({ spawnId, stage: 'EGGS', number: 100, countedOn: on });
      await make.recordSpawnCount({ spawnId, stage: 'HATCHED', number: alive, countedOn: on });
    }
  };

  beforeAll(async () => {
    for (const [browser, code, line] of [
      [ada, 'ADA', 'ada'],
      [bo, 'BO', 'bo'],
      [cy, 'CY', 'cy'],
    ] as const)
      await broods(browser, code, ids[line]!);
  });

  it('are told from three keepers who said that theirs count, and not from two', async () => {
    expect(await hatch(ada)).toMatchObject({ keepers: null, broods: null, costs: [] });
    await consent(ada, ids['ada']!, true, true);
    await consent(bo, ids['bo']!, false, true);
    const ofTwo = await hatch(ada);
    expect(ofTwo).toMatchObject({ keepers: null, broods: null, costs: [] });
    expect(ofTwo.whyNot).toMatch(/fewer than 3 keepers/);
    await consent(cy, ids['cy']!, false, true);
    for (const browser of [ada, api, partner]) {
      const told = await hatch(browser);
      expect(told).toMatchObject({ keepers: 3, lines: 3, broods: 18, whyNot: null });
      const cost = told.costs.find((one) => (one as { column: string }).column === 'YOUNG') as {
        perGamete: number;
      };
      // -ln of 57.7 in 92.3 over an F of 1/4: about 1.9.
      expect(cost.perGamete).toBeGreaterThan(1.4);
      expect(cost.perGamete).toBeLessThan(2.4);
    }
  });

  it('are not told anew when one keeper alone ends it', async () => {
    await consent(cy, ids['cy']!, true, false);
    expect(await hatch(ada)).toMatchObject({ keepers: null, broods: null, costs: [] });
    const dot = await joined(api, 'Dotty', 'KEEPER');
    const [line = ''] = await lineOf(dot, 'DOT');
    await broods(dot, 'DOT', line);
    await consent(dot, line, false, true);
    expect(await hatch(ada)).toMatchObject({ keepers: 3, whyNot: null });
    await consent(cy, ids['cy']!, true, true);
    const withOneMore = await hatch(ada);
    expect(withOneMore.costs).toEqual([]);
    expect(withOneMore.whyNot).toMatch(/One keeper alone/);
  });

  it('tell how much of a trait is inherited, and nothing of a fish', async () => {
    const asked = `query ($id: ID!) { clubHeritability(traitId: $id) { keepers lines fish mean low high whyNot } }`;
    expect(codeOf(await ada.send(asked, { id: randomUUID() }))).toBe('NOT_FOUND');
    const traitId = await newRecords(api).createTrait({
      ...{ key: 'span', name: 'Span', kind: 'MEASURED', unit: 'mm' },
    });
    for (const [at, browser] of [ada, bo, cy].entries()) {
      const { data } = await browser.send<{
        fishList: { edges: { node: { id: string; tag: string } }[] };
      }>('{ fishList(first: 30, filter: { inUse: true }) { edges { node { id tag } } } }');
      const own = data!.fishList.edges.filter(({ node }) =>
        node.tag.startsWith(['ADA', 'BO', 'CY'][at]!),
      );
      for (const [k, { node }] of own.entries())
        await madeBy(browser).recordScores({
          ...{ fishId: node.id, scoredOn: today() },
          scores: [{ traitId, value: 40 + at + (k % 3) }],
        });
    }
    const { data } = await partner.send<{
      clubHeritability: Record<string, number | string | null>;
    }>(asked, { id: traitId });
    // A partner without a line of scores does not know the trait.
    expect(data?.clubHeritability ?? null).toBe(null);
    const told = (
      await askedIn<{ clubHeritability: Record<string, number> }>(ada, asked, { id: traitId })
    ).clubHeritability;
    expect(told).toMatchObject({ keepers: 3, lines: 3, whyNot: null });
    expect(told['fish']).toBeGreaterThanOrEqual(12);
    expect(told['low']!).toBeLessThan(told['mean']!);
    expect(told['high']!).toBeGreaterThan(told['mean']!);
  });
});

describe('one round in two fish rooms', () => {
  const ASSIGN = `mutation ($input: AssignPairingInput!) { assignPairing(input: $input) { revision maker { name } } }`;
  const MINE = '{ pairings(states: [PLANNED], mine: true) { id note maker { name } } }';
  const MAKERS = 'query ($id: ID!) { pairMakers(lineId: $id) { name } }';
  let pairingId = '';
  const assign = (browser: Browser, personId: string | null) =>
    browser.send(ASSIGN, { input: { pairingId, personId } });
  const mine = async (browser: Browser) =>
    (await askedIn<{ pairings: { id: string; note: string | null }[] }>(browser, MINE)).pairings;

  beforeAll(async () => {
    const make = newRecords(api);
    const lineId = ids['house'] ?? '';
    const sireId = await make.createFish({ tag: 'H-M', sex: 'MALE', lineId });
    const damId = await make.createFish({ tag: 'H-F', sex: 'FEMALE', lineId });
    Object.assign(ids, { houseSire: sireId, houseDam: damId });
    pairingId = await make.planPairing({
      ...{ sireId, damId, plannedOn: today(), confirmed: true, note: 'In the tall tank' },
    });
  });

  it('gives a pair to whoever may breed with the line, and to nobody else', async () => {
    for (const id of [partner.id, ada.id, randomUUID()])
      expect(codeOf(await assign(api, id))).toBe('VALIDATION');
    await records.query(`UPDATE line_grant SET level = 'breed' WHERE account_id = $1`, [
      partner.id,
    ]);
    expect((await api.send(MAKERS, { id: ids['house'] })).data).toEqual({
      pairMakers: [{ name: 'Test keeper' }, { name: 'Pelle' }],
    });
    expect((await assign(api, partner.id)).data).toEqual({
      assignPairing: { revision: 2, maker: { name: 'Pelle' } },
    });
    expect(codeOf(await bo.send(MAKERS, { id: ids['house'] }))).toBe('NOT_FOUND');
    expect(codeOf(await assign(bo, bo.id))).toBe('NOT_FOUND');
  });

  it('shows each their own, and lets whoever makes a pair record its spawn', async () => {
    expect(await mine(api)).toEqual([]);
    // Notes of the line are not lent, but this one is about what they make.
    expect(await mine(partner)).toMatchObject([{ id: pairingId, note: 'In the tall tank' }]);
    const spawn = await partner.send(
      'mutation ($input: PairingSpawnInput!) { recordPairingSpawn(input: $input) { tag person { name } } }',
      { input: { pairingId, tag: 'PELLE-1', lineId: ids['house'], spawnedOn: daysAgo(1) } },
    );
    expect(spawn.data).toEqual({
      recordPairingSpawn: { tag: 'PELLE-1', person: { name: 'Pelle' } },
    });
    const [row] = (await records.query('SELECT state, note FROM pairing WHERE id = $1', [
      pairingId,
    ])) as object[];
    expect(row).toEqual({ state: 'spawned', note: 'In the tall tank' });
    expect(await mine(partner)).toEqual([]);
  });
});
