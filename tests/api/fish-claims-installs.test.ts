import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newRecords } from '../new-records.js';
import { recordsOf, type RunningApi, startApi } from './harness.js';
import { lineFile, sent as sentFile } from './line-files.js';
import {
  exchange,
  exchangeBothWays,
  grant,
  pairUp,
  type Partner,
  takeOffered,
} from './paired-installs.js';

const CLAIM = 'mutation ($input: ClaimFishInput!) { claimFish(input: $input) { id state } }';
const ANSWER =
  'mutation ($id: ID!, $yes: Boolean!) { answerFishClaim(id: $id, confirmed: $yes, word: "So it is") { state } }';
const BACK = 'mutation ($id: ID!) { takeBackFishClaim(id: $id) { state } }';
const LIST =
  '{ fishClaims(first: 50) { edges { node { id fishId tag asTag state mine answerWord } } } }';
const FISH = `query ($id: ID!) { fish(id: $id) {
  tag sex hatchDate withdrawn { reason } person { here } sire { id tag } line { code } } }`;

interface Claim {
  readonly id: string;
  readonly fishId: string;
  readonly state: string;
}
interface Seen {
  readonly tag: string;
  readonly sex: string;
  readonly withdrawn: { readonly reason: string } | null;
  readonly person: { readonly here: boolean };
  readonly sire: { readonly id: string; readonly tag: string } | null;
}

describe('a fish of which only a tag came, claimed by another install through the folder', () => {
  let a: RunningApi;
  let b: RunningApi;
  let folder = '';
  let line = '';
  let ofB: Partner;
  let ofA: Partner;
  const ids: Record<string, string> = {};

  const bare = async (tag: string, more: object = {}): Promise<void> => {
    const { createFish } = newRecords(a);
    const of = { sex: 'MALE', lineId: line, disposition: 'ELSEWHERE' } as const;
    ids[tag] = await createFish({ tag, ...of, ...more });
    ids[`${tag}-YOUNG`] = await createFish({
      ...{ tag: `${tag}-YOUNG`, sex: 'FEMALE', lineId: line, sireId: ids[tag] },
    });
  };
  const bothWays = (): Promise<void> => exchangeBothWays(a, ofB.id, b, ofA.id);
  const sent = async (api: RunningApi, query: string, variables: object): Promise<string> => {
    const { errors } = await api.send(query, variables);
    return errors?.[0]?.message ?? '';
  };
  const claim = async (tag: string, asTag: string | null): Promise<void> => {
    expect(await sent(b, CLAIM, { input: { fishId: ids[tag], asTag } })).toBe('');
    await bothWays();
  };
  const claimOf = async (api: RunningApi, tag: string): Promise<Claim | undefined> => {
    const { fishClaims } = await api.graphql<{ fishClaims: { edges: { node: Claim }[] } }>(LIST);
    return fishClaims.edges.map(({ node }) => node).find(({ fishId }) => fishId === ids[tag]);
  };
  const answer = async (tag: string, yes: boolean): Promise<void> => {
    expect(await sent(a, ANSWER, { id: (await claimOf(a, tag))!.id, yes })).toBe('');
    await bothWays();
  };
  const fish = async (api: RunningApi, tag: string): Promise<Seen> =>
    (await api.graphql<{ fish: Seen }>(FISH, { id: ids[tag] })).fish;
  const nothingWaits = async (): Promise<void> => {
    for (const api of [a, b])
      expect(await api.graphql('{ differences(first: 5) { totalCount } }')).toEqual({
        differences: { totalCount: 0 },
      });
  };

  beforeAll(async () => {
    [a, b] = await Promise.all([startApi(), startApi()]);
    line = await newRecords(a).createLine({ code: 'R', name: 'Rust' });
    const grandsire = await newRecords(a).createFish({
      ...{ tag: 'GRANDSIRE', sex: 'MALE', lineId: line },
    });
    await bare('KNOWN', { sireId: grandsire, hatchDate: '2025-01-03' });
    for (const tag of ['NONE', 'NOT', 'BACK', 'CROSSED', 'LOOP', 'FORGED', 'BY-HAND'])
      await bare(tag);
    ({ folder, ofB, ofA } = await pairUp(a, b));
    // What the partner may change here is told by the grant; a claim needs no more than to look.
    await grant(a, ofB.person.id, line, { level: 'LOOK' });
    await exchange(a, ofB.id);
    await exchange(b, ofA.id);
    await takeOffered(b, ofA.id, line);
    const own = await newRecords(b).createLine({ code: 'OWN', name: 'Outcross' });
    const { createFish } = newRecords(b);
    const fishOfB = async (tag: string, more: object = {}): Promise<void> => {
      ids[tag] = await createFish({ tag, sex: 'MALE', lineId: own, ...more });
    };
    await fishOfB('MINE', { sex: 'UNSEXED', name: 'Secret name', note: 'Secret note' });
    await fishOfB('CROSSED-MINE');
    await fishOfB('FORGED-MINE');
    await fishOfB('HAND-MINE');
    await fishOfB('LOOP-MINE', { damId: ids['LOOP-YOUNG'] });
    await bothWays();
  });
  afterAll(() => Promise.all([a.close(), b.close()]));

  it('comes to whoever recorded the tag, with the claimant’s tag and no more of their fish', async () => {
    await claim('KNOWN', 'MINE');
    expect(await claimOf(a, 'KNOWN')).toMatchObject({ state: 'OPEN', asTag: 'MINE', mine: false });
    expect(await fish(a, 'MINE')).toMatchObject({ tag: 'MINE', person: { here: false } });
    const told = await a.graphql('query ($id: ID!) { fish(id: $id) { name note line { code } } }', {
      id: ids['MINE'],
    });
    expect(told).toEqual({ fish: { name: null, note: null, line: null } });
  });

  it('is one fish on both once it is confirmed, with what either knew', async () => {
    await answer('KNOWN', true);
    for (const api of [a, b]) {
      expect((await claimOf(api, 'KNOWN'))?.state).toBe('CONFIRMED');
      expect((await fish(api, 'KNOWN-YOUNG')).sire).toEqual({ id: ids['MINE'], tag: 'MINE' });
      expect((await fish(api, 'KNOWN')).withdrawn?.reason).toBe('the same fish as MINE');
      expect(await fish(api, 'MINE')).toMatchObject({
        ...{ tag: 'MINE', sex: 'MALE', hatchDate: '2025-01-03', withdrawn: null },
        sire: { tag: 'GRANDSIRE' },
      });
    }
    expect((await fish(a, 'MINE')).person.here).toBe(false);
    expect((await fish(b, 'MINE')).person.here).toBe(true);
    await nothingWaits();
  });

  it('becomes the record of a claimant who has none, on both', async () => {
    await claim('NONE', null);
    await answer('NONE', true);
    expect(await fish(a, 'NONE')).toMatchObject({ withdrawn: null, person: { here: false } });
    expect(await fish(b, 'NONE')).toMatchObject({ withdrawn: null, person: { here: true } });
    await nothingWaits();
  });

  it('stays as it is where it is declined, or taken back before it was answered', async () => {
    await claim('NOT', null);
    await answer('NOT', false);
    await claim('BACK', null);
    expect(await sent(b, BACK, { id: (await claimOf(b, 'BACK'))!.id })).toBe('');
    await bothWays();
    const { id } = (await claimOf(a, 'BACK'))!;
    expect(await sent(a, ANSWER, { id, yes: true })).toContain('taken back on');
    for (const [tag, state] of [
      ['NOT', 'DECLINED'],
      ['BACK', 'TAKEN_BACK'],
    ] as const)
      for (const api of [a, b]) {
        expect((await claimOf(api, tag))?.state).toBe(state);
        expect((await fish(api, tag)).withdrawn).toBeNull();
        expect((await fish(api, tag)).person.here).toBe(api === a);
      }
    await nothingWaits();
  });

  it('is one fish on both where it was taken back while the answer was under way', async () => {
    await claim('CROSSED', 'CROSSED-MINE');
    const { id } = (await claimOf(a, 'CROSSED'))!;
    expect(await sent(a, ANSWER, { id, yes: true })).toBe('');
    expect(await sent(b, BACK, { id })).toBe('');
    await bothWays();
    for (const api of [a, b]) {
      expect((await claimOf(api, 'CROSSED'))?.state).toBe('CONFIRMED');
      expect((await fish(api, 'CROSSED-YOUNG')).sire?.id).toBe(ids['CROSSED-MINE']);
    }
    await nothingWaits();
  });

  it('is refused at once where it would be its own ancestor by what the claimant knows', async () => {
    const input = { fishId: ids['LOOP'], asTag: 'LOOP-MINE' };
    expect(await sent(b, CLAIM, { input })).toContain('its own ancestor');
    expect(await claimOf(b, 'LOOP')).toBeUndefined();
  });

  it('goes by files that are given by hand as well', async () => {
    const carried = async (from: RunningApi, to: RunningApi, partner: Partner): Promise<void> => {
      const file = await sentFile(to, await lineFile(from, line, `?for=${partner.person.id}`));
      const taken = await to.send(
        'mutation ($file: ID!) { acceptShare(file: $file) { added updated } }',
        { file },
      );
      expect(taken.errors).toBeUndefined();
    };
    const input = { fishId: ids['BY-HAND'], asTag: 'HAND-MINE' };
    expect(await sent(b, CLAIM, { input })).toBe('');
    await carried(b, a, ofA);
    const { id } = (await claimOf(a, 'BY-HAND'))!;
    expect(await sent(a, ANSWER, { id, yes: true })).toBe('');
    await carried(a, b, ofB);
    for (const api of [a, b]) {
      expect((await claimOf(api, 'BY-HAND'))?.state).toBe('CONFIRMED');
      expect((await fish(api, 'BY-HAND-YOUNG')).sire?.id).toBe(ids['HAND-MINE']);
      expect((await fish(api, 'BY-HAND')).withdrawn?.reason).toBe('the same fish as HAND-MINE');
    }
    await nothingWaits();
  });

  it('is not confirmed by the claimant’s own file, and older files that come again change nothing', async () => {
    const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) =>
      name.endsWith('.age'),
    );
    const before = files.map((name) => [name, readFileSync(join(folder, name))] as const);
    await claim('FORGED', 'FORGED-MINE');
    const theirs = await recordsOf(b);
    const { id } = (await claimOf(b, 'FORGED'))!;
    await theirs.query(
      `UPDATE fish_claim SET answer = 'confirmed', answered_on = claimed_on, answer_word = 'Yes, yes' WHERE id = $1`,
      [id],
    );
    // A line goes out again once something of it was changed by the program.
    await newRecords(b).createFish({ tag: 'ONE-MORE', sex: 'MALE', lineId: line });
    await bothWays();
    expect((await claimOf(a, 'FORGED'))?.state).toBe('OPEN');
    expect((await fish(a, 'FORGED')).withdrawn).toBeNull();
    for (const [name, bytes] of before) writeFileSync(join(folder, name), bytes);
    await bothWays();
    expect((await claimOf(a, 'KNOWN'))?.state).toBe('CONFIRMED');
    expect((await fish(a, 'KNOWN-YOUNG')).sire?.id).toBe(ids['MINE']);
    expect((await fish(b, 'NONE')).person.here).toBe(true);
  });
});
