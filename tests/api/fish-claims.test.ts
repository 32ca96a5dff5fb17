import type { DataSource } from 'typeorm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newRecords } from '../new-records.js';
import { type GraphqlAnswer, recordsOf, type RunningApi, startApi } from './harness.js';
import { type Browser, joinedAs } from './other-browser.js';

const CLAIM = 'mutation ($input: ClaimFishInput!) { claimFish(input: $input) { id state mine } }';
const ANSWER =
  'mutation ($id: ID!, $yes: Boolean!) { answerFishClaim(id: $id, confirmed: $yes, word: "So it is") { state answerWord } }';
const BACK = 'mutation ($id: ID!) { takeBackFishClaim(id: $id) { state } }';
const LIST = '{ fishClaims(open: true) { edges { node { tag asTag by { name } } } } }';
const FISH =
  'query ($id: ID!) { fish(id: $id) { tag withdrawn { reason } person { name } sire { tag } } }';

let api: RunningApi;
let records: DataSource;
let runa: Browser & { id: string };
let pelle: Browser & { id: string };
let lineId = '';
let made = 0;

type By = Pick<Browser, 'send'>;
const problem = ({ errors }: GraphqlAnswer<unknown>): string =>
  errors?.[0] === undefined ? '' : `${errors[0].extensions.code}: ${errors[0].message}`;
const sent = async <Data>(by: By, query: string, variables: object): Promise<Data> => {
  const answer = await by.send<Data>(query, variables);
  expect(problem(answer)).toBe('');
  return answer.data as Data;
};
const refused = async (by: By, query: string, variables: object): Promise<string> =>
  problem(await by.send(query, variables));

const by = (who: By) =>
  newRecords({
    graphql: async <Data>(query: string, variables: object) => sent<Data>(who, query, variables),
  });

/** A tag alone, known as a parent of the owner's fish. */
const bare = (more: object = {}): Promise<string> =>
  by(api).createFish({
    tag: `BARE-${(made += 1)}`,
    sex: 'MALE',
    lineId,
    disposition: 'ELSEWHERE',
    ...more,
  });
const claimed = async (who: By, fishId: string, asTag: string | null = null): Promise<string> =>
  (await sent<{ claimFish: { id: string } }>(who, CLAIM, { input: { fishId, asTag } })).claimFish
    .id;
const fish = async (id: string) =>
  (
    await sent<{
      fish: {
        withdrawn: { reason: string } | null;
        person: { name: string };
        sire: { tag: string } | null;
      };
    }>(api, FISH, { id })
  ).fish;

beforeAll(async () => {
  api = await startApi();
  records = await recordsOf(api);
  lineId = await newRecords(api).createLine({ code: 'C', name: 'Claimed line' });
  [runa, pelle] = [await joinedAs(api, 'Runa'), await joinedAs(api, 'Pelle')];
  for (const { id } of [runa, pelle])
    await api.graphql('mutation ($input: GrantLineInput!) { grantLine(input: $input) { level } }', {
      input: {
        ...{ personId: id, lineId, level: 'BREED', scores: true, photos: true },
        ...{ notes: true, water: true, place: true },
      },
    });
});
afterAll(() => api.close());

describe('a fish of which only the tag is on record', () => {
  it('is claimed by whoever has it; confirmed, both records are one and the young stay its young', async () => {
    const known = await bare();
    const young = await by(api).createFish({ tag: 'YOUNG-1', sex: 'FEMALE', sireId: known });
    const own = await by(runa).createFish({ tag: 'RUNA-1', sex: 'UNSEXED', lineId });
    const id = await claimed(runa, known, 'RUNA-1');
    const { fishClaims } = await sent<{ fishClaims: { edges: { node: object }[] } }>(api, LIST, {});
    expect(fishClaims.edges).toContainEqual({
      node: { tag: 'BARE-1', asTag: 'RUNA-1', by: { name: 'Runa' } },
    });
    expect((await fish(young)).sire).toEqual({ tag: 'BARE-1' });
    const answer = await sent<{ answerFishClaim: object }>(api, ANSWER, { id, yes: true });
    expect(answer.answerFishClaim).toEqual({ state: 'CONFIRMED', answerWord: 'So it is' });
    expect((await fish(young)).sire).toEqual({ tag: 'RUNA-1' });
    expect(await fish(known)).toMatchObject({
      withdrawn: { reason: 'the same fish as RUNA-1' },
      person: { name: 'Test keeper' },
    });
    const [row] = (await records.query('SELECT sex, person_id FROM fish WHERE id = $1', [
      own,
    ])) as object[];
    expect(row).toEqual({ sex: 'male', person_id: runa.id });
  });

  it('brings the parents that the bare record alone knew', async () => {
    const grandsire = await by(api).createFish({ tag: 'GRANDSIRE', sex: 'MALE' });
    const known = await bare({ sireId: grandsire });
    const own = await by(runa).createFish({ tag: 'RUNA-2', sex: 'MALE', lineId });
    await sent(api, ANSWER, { id: await claimed(runa, known, 'RUNA-2'), yes: true });
    expect((await fish(own)).sire).toEqual({ tag: 'GRANDSIRE' });
  });

  it('becomes the record of a claimant who has none', async () => {
    const known = await bare();
    await sent(api, ANSWER, { id: await claimed(runa, known), yes: true });
    expect(await fish(known)).toMatchObject({ withdrawn: null, person: { name: 'Runa' } });
  });

  it('stays as it is when that is declined or taken back', async () => {
    const known = await bare();
    await sent(api, ANSWER, { id: await claimed(runa, known), yes: false });
    const id = await claimed(runa, known);
    await sent(runa, BACK, { id });
    expect(await refused(api, ANSWER, { id, yes: true })).toContain('taken back on');
    expect(await fish(known)).toMatchObject({ withdrawn: null, person: { name: 'Test keeper' } });
  });

  it('is refused where it would be its own ancestor or is of the other sex, and nothing is changed', async () => {
    const known = await bare();
    const young = await by(api).createFish({ tag: 'YOUNG-2', sex: 'MALE', lineId, sireId: known });
    await by(runa).createFish({ tag: 'RUNA-3', sex: 'MALE', lineId, sireId: young });
    const loop = await claimed(runa, known, 'RUNA-3');
    expect(await refused(api, ANSWER, { id: loop, yes: true })).toContain('its own ancestor');
    await sent(runa, BACK, { id: loop });
    await by(runa).createFish({ tag: 'RUNA-4', sex: 'FEMALE', lineId });
    const wrong = await claimed(runa, known, 'RUNA-4');
    expect(await refused(api, ANSWER, { id: wrong, yes: true })).toContain('cannot be a sire');
    expect((await fish(young)).sire).toEqual({ tag: `BARE-${made}` });
    expect((await fish(known)).withdrawn).toBeNull();
  });

  it('is refused for one with more than a tag, one’s own, twice, by a tag that nobody has, and answered by nobody else', async () => {
    const alive = await by(api).createFish({ tag: 'ALIVE', sex: 'MALE', lineId });
    const input = (fishId: string, asTag: string | null = null) => ({ input: { fishId, asTag } });
    expect(await refused(runa, CLAIM, input(alive))).toContain('has a place of its own');
    const known = await bare();
    expect(await refused(api, CLAIM, input(known))).toContain('on record with you already');
    expect(await refused(runa, CLAIM, input(known, 'NOWHERE'))).toContain('None of your fish');
    const hidden = await by(api).createFish({
      tag: 'HIDDEN',
      sex: 'MALE',
      disposition: 'ELSEWHERE',
    });
    expect(await refused(runa, CLAIM, input(hidden))).toContain('NOT_FOUND');
    const id = await claimed(runa, known);
    expect(await refused(pelle, CLAIM, input(known))).toContain('claimed already');
    for (const who of [pelle, runa])
      expect(await refused(who, ANSWER, { id, yes: true })).toContain('NOT_FOUND');
    const both = await Promise.all([
      api.send(ANSWER, { id, yes: true }),
      api.send(ANSWER, { id, yes: false }),
    ]);
    expect(both.map(problem).filter((text) => text === '')).toHaveLength(1);
  });
});
