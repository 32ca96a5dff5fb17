import { afterAll, beforeAll, expect, it } from 'vitest';
import { daysAgo, today } from '../clock.js';
import { newRecords } from '../new-records.js';
import { type RunningApi, startApi } from './harness.js';
import { askedIn, codeOf, type Joined, joined, madeBy } from './joined.js';
import { lineFile, partsOfZip } from './line-files.js';
import type { Browser } from './other-browser.js';
import { grant } from './paired-installs.js';

const RECORD = `mutation ($input: RecordShowResultInput!) { recordShowResult(input: $input) { id revision } }`;
const CORRECT = `mutation ($input: CorrectShowResultInput!) { correctShowResult(input: $input) { revision placing points } }`;
const WITHDRAW = `mutation ($input: WithdrawInput!) { withdrawShowResult(input: $input) { id } }`;
const SEEN = `query ($id: ID!) { fish(id: $id) { showResults { show class placing points note } } }`;
const OFFER = `mutation ($input: OfferFishInput!) { offerFish(input: $input) { id } }`;
const ACCEPT = `mutation ($input: AcceptFishInput!) { acceptFish(input: $input) { id } }`;

interface Result {
  readonly class: string;
  readonly placing: number | null;
  readonly note: string | null;
}

let api: RunningApi;
let runa: Joined;
let line = '';
let fish = '';

const asOwner = (): Browser => ({
  send: (query, variables) => api.send(query, variables),
  http: (path, init) => api.http(path, init),
});
const seenBy = async (browser: Browser, id = fish): Promise<Result[]> =>
  (await askedIn<{ fish: { showResults: Result[] } }>(browser, SEEN, { id })).fish.showResults;
const result = (more: object = {}): { input: object } => ({
  input: {
    ...{ fishId: fish, show: 'Autumn show', onDate: daysAgo(3), class: 'Young males' },
    ...{ placing: 2, points: 81.5, note: 'Broad, a little stiff', ...more },
  },
});

beforeAll(async () => {
  api = await startApi();
  const make = newRecords(api);
  line = await make.createLine({ code: 'SH', name: 'Shown' });
  fish = await make.createFish({
    ...{ tag: 'SH-1', sex: 'MALE', lineId: line, hatchDate: daysAgo(200) },
  });
  runa = await joined(api, 'Runa', 'PARTNER');
});
afterAll(() => api.close());

it('is recorded in a class of the keeper’s own words, corrected and withdrawn', async () => {
  const id = '20000000-0000-4000-8000-000000000001';
  for (let k = 0; k < 2; k += 1) await api.graphql(RECORD, result({ id, class: ' Veterans ' }));
  expect(await seenBy(asOwner())).toMatchObject([{ class: 'Veterans', placing: 2 }]);
  expect(
    await api.graphql(CORRECT, { input: { id, revision: 1, placing: null, points: 80 } }),
  ).toEqual({ correctShowResult: { revision: 2, placing: null, points: 80 } });
  await api.graphql(WITHDRAW, { input: { id, revision: 2, reason: 'Another fish' } });
  expect(await seenBy(asOwner())).toEqual([]);
});

it.each([
  [{ class: '  ' }, 'class'],
  [{ show: '' }, 'show'],
  [{ placing: 0 }, 'placing'],
  [{ onDate: daysAgo(-3) }, 'onDate'],
  [{ onDate: daysAgo(300) }, 'onDate'],
])('that cannot be is refused: %o', async (wrong, field) => {
  const { errors } = await api.send(RECORD, result(wrong));
  expect(JSON.stringify(errors?.[0]?.extensions)).toContain(`"field":"${field}"`);
  expect(await seenBy(asOwner())).toEqual([]);
});

it('is lent with the scores of a line, the judge’s words with the notes, and handed over with scores', async () => {
  await api.graphql(RECORD, result());
  const nothing = { scores: false, photos: false, notes: false, water: false, place: false };
  await grant(api, runa.id, line, { level: 'LOOK', ...nothing });
  expect(await seenBy(runa)).toEqual([]);
  await grant(api, runa.id, line, { level: 'BREED', ...nothing, scores: true });
  expect(await seenBy(runa)).toMatchObject([{ class: 'Young males', placing: 2, note: null }]);
  expect(codeOf(await runa.send(RECORD, result()))).toBe('NOT_ALLOWED');
  await grant(api, runa.id, line, { level: 'LOOK', ...nothing, scores: true, notes: true });
  expect((await seenBy(runa))[0]?.note).toBe('Broad, a little stiff');
  const told = async (asked: string): Promise<number> => {
    const parts = await partsOfZip(await lineFile(api, line, asked));
    const { records } = JSON.parse(String(parts.get('line.json'))) as {
      records: { showResults: { withdrawnAt: string | null }[] };
    };
    return records.showResults.filter(({ withdrawnAt }) => withdrawnAt === null).length;
  };
  expect([await told('?parts=notes'), await told('?parts=scores'), await told('')]).toEqual([
    0, 1, 1,
  ]);
  await grant(api, runa.id, line, { level: 'LOOK', ...nothing });
  const offer = { fishIds: [fish], kind: 'GIFT', toId: runa.id, withScores: true };
  const { offerFish } = await api.graphql<{ offerFish: { id: string }[] }>(OFFER, {
    input: offer,
  });
  await askedIn(runa, ACCEPT, { input: { ids: offerFish.map(({ id }) => id) } });
  expect((await seenBy(runa)).map(({ placing }) => placing)).toEqual([2]);
});

it('of a keeper’s fish is seen by the owner where scores came with it, and by nobody before', async () => {
  const solveig = await joined(api, 'Solveig', 'KEEPER');
  const make = madeBy(solveig);
  const lineId = await make.createLine({ code: 'SOL', name: 'Solveig’s' });
  const [{ here }] = (
    await api.graphql<{ people: { id: string; here: boolean }[] }>('{ people { id here } }')
  ).people
    .filter((one) => one.here)
    .map(({ id }) => ({ here: id })) as [{ here: string }];
  const handed = async (withScores: boolean): Promise<string> => {
    const id = await make.createFish({ tag: `SOL-${withScores}`, sex: 'MALE', lineId });
    await askedIn(solveig, RECORD, result({ fishId: id, onDate: today() }));
    expect(codeOf(await api.send(SEEN, { id }))).toBe('NOT_FOUND');
    const input = { fishIds: [id], kind: 'GIFT', toId: here, withScores };
    const { offerFish } = await askedIn<{ offerFish: { id: string }[] }>(solveig, OFFER, {
      input,
    });
    await api.graphql(ACCEPT, { input: { ids: offerFish.map((one) => one.id) } });
    return id;
  };
  expect(await seenBy(asOwner(), await handed(false))).toEqual([]);
  expect(await seenBy(asOwner(), await handed(true))).toHaveLength(1);
});
