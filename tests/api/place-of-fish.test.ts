import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Records, recordsOn } from './carrier-records.js';
import { type RunningApi, startApi } from './harness.js';
import { lineJson, sentText } from './line-files.js';
import { readPdf } from './read-pdf.js';

const FISH = `query ($filter: FishFilter) { fishList(filter: $filter, first: 100) { edges { node {
  id tag revision place inUse disposition swimsWith { id name } person { name here } } } } }`;
const PAIRS = `query ($input: PairingInput!) { pairingCandidates(input: $input) { totalCount
  edges { node { sire { tag } dam { tag } warnings { code text } } } } }`;
const ACCEPT = `mutation ($file: ID!) { acceptShare(file: $file) { conflicts updated added items { label outcome changes { field before after } } } }`;
const DECIDE = `mutation ($input: DecideFishInput!) { decideFish(input: $input) { id place } }`;
const CORRECT = `mutation ($input: CorrectFishInput!) { correctFish(input: $input) { id place } }`;

interface FishNode {
  id: string;
  tag: string;
  revision: number;
  place: string;
  inUse: boolean;
  disposition: string;
  swimsWith: { id: string; name: string } | null;
  person: { name: string; here: boolean };
}
interface Report {
  conflicts: number;
  updated: number;
  added: number;
  items: { label: string; outcome: string; changes: object[] }[];
}

/** A file as the versions before fish had a place of their own wrote it. */
const older = (file: string, version: number): string => {
  const raw = JSON.parse(file) as { version: number; records: { fish: Record<string, unknown>[] } };
  raw.version = version;
  for (const fish of raw.records.fish) delete fish['swimsWithId'];
  return JSON.stringify(raw);
};

describe('where a fish swims, and whose record it is', () => {
  let ours: RunningApi;
  let theirs: RunningApi;
  let records: Records;
  let line: string;

  beforeAll(async () => {
    [ours, theirs] = await Promise.all([startApi(), startApi()]);
    records = recordsOn(ours);
    line = await records.line('R');
    await records.fish('M1', 'MALE', { lineId: line });
    await records.fish('M2', 'MALE', { lineId: line });
    await records.fish('F1', 'FEMALE', { lineId: line });
    await records.fish('F2', 'FEMALE', { lineId: line });
    await records.fish('P1', 'MALE', { lineId: line, disposition: 'ELSEWHERE' });
    await accept(theirs, await exported(ours));
    // They answer once, so that we have them on record.
    await accept(ours, await exported(theirs));
  });
  afterAll(() => Promise.all([ours.close(), theirs.close()]));

  const exported = (api: RunningApi) => lineJson(api, line);
  const accept = async (api: RunningApi, text: string): Promise<Report> =>
    (await api.graphql<{ acceptShare: Report }>(ACCEPT, { file: await sentText(api, text) }))
      .acceptShare;
  const fishIn = async (api: RunningApi, filter: object = {}): Promise<Map<string, FishNode>> => {
    const { fishList } = await api.graphql<{ fishList: { edges: { node: FishNode }[] } }>(FISH, {
      filter,
    });
    return new Map(fishList.edges.map(({ node }) => [node.tag, node]));
  };
  const named = async (api: RunningApi, tag: string) => (await fishIn(api)).get(tag)!;
  const pairs = async (api: RunningApi, input: object = {}) => {
    const { pairingCandidates } = await api.graphql<{
      pairingCandidates: {
        edges: {
          node: { sire: { tag: string }; dam: { tag: string }; warnings: { code: string }[] };
        }[];
      };
    }>(PAIRS, { input });
    return pairingCandidates.edges.map(({ node }) => node);
  };
  const pairTags = async (api: RunningApi, input: object = {}) =>
    (await pairs(api, input)).map(({ sire, dam }) => `${sire.tag} ${dam.tag}`).sort();

  it('a fish of ours swims here, and with us where the partner reads it', async () => {
    expect(await named(ours, 'M1')).toMatchObject({ place: 'HERE', person: { here: true } });
    expect(await named(theirs, 'M1')).toMatchObject({
      place: 'PARTNER',
      inUse: true,
      person: { here: false },
    });
    expect(await named(ours, 'P1')).toMatchObject({ place: 'UNKNOWN', swimsWith: null });
    expect(await named(theirs, 'P1')).toMatchObject({ place: 'UNKNOWN' });
  });

  it('is told in lists: here, with a partner, or not known', async () => {
    expect([...(await fishIn(ours, { place: 'HERE' })).keys()].sort()).toEqual([
      ...['F1', 'F2', 'M1', 'M2'],
    ]);
    expect([...(await fishIn(theirs, { place: 'HERE' })).keys()]).toEqual([]);
    expect((await fishIn(theirs, { place: 'PARTNER' })).size).toBe(4);
    expect([...(await fishIn(theirs, { place: 'UNKNOWN' })).keys()]).toEqual(['P1']);
  });

  it('is told on labels: with whom it swims, and nothing of a fish that is here', async () => {
    const words = async (api: RunningApi): Promise<string> => {
      const { id } = await named(api, 'M1');
      const response = await api.http(`/export/print/jar-labels.pdf?fish=${id}`);
      expect(response.status).toBe(200);
      const [page] = await readPdf(new Uint8Array(await response.arrayBuffer()));
      return (page?.texts ?? []).map((text) => text.words).join(' ');
    };
    const { swimsWith } = await named(theirs, 'M1');
    expect(await words(theirs)).toContain(`swims with ${swimsWith?.name}`);
    expect(await words(ours)).toContain('M1');
    expect(await words(ours)).not.toContain('swims with');
  });

  it('a partner’s fish is offered for pairing only when asked for, with a word on it', async () => {
    expect(await pairTags(ours)).toEqual(['M1 F1', 'M1 F2', 'M2 F1', 'M2 F2']);
    expect(await pairTags(theirs)).toEqual([]);
    const asked = await pairs(theirs, { includePartners: true });
    expect(asked).toHaveLength(4);
    for (const { warnings } of asked)
      expect(warnings.filter(({ code }) => code === 'WITH_PARTNER')).toHaveLength(2);
  });

  it('a fish placed with the partner is here there, and not with us', async () => {
    // The partner's install is known here from a file that they sent with a fish of their own.
    const theirRecords = recordsOn(theirs);
    await theirRecords.fish('T1', 'FEMALE', { lineId: line });
    await accept(ours, await exported(theirs));
    const partner = (await named(ours, 'T1')).swimsWith!.id;
    const moved = await named(ours, 'M2');
    await ours.graphql(DECIDE, {
      input: {
        id: moved.id,
        disposition: 'PLACED',
        on: '2026-06-01',
        reason: 'to keep the line apart',
        swimsWithId: partner,
      },
    });
    expect(await named(ours, 'M2')).toMatchObject({ place: 'PARTNER', inUse: true });
    expect(await pairTags(ours)).toEqual(['M1 F1', 'M1 F2']);
    expect(await accept(theirs, await exported(ours))).toMatchObject({ conflicts: 0, updated: 1 });
    expect(await named(theirs, 'M2')).toMatchObject({
      place: 'HERE',
      inUse: true,
      disposition: 'PLACED',
      person: { here: false },
    });
    expect(await pairTags(theirs)).toEqual(['M2 T1']);
  });

  it('who it was placed with may be nobody on record; taken back, it is here again', async () => {
    const { id } = await named(ours, 'F2');
    const decide = (disposition: string) =>
      ours.graphql<{ decideFish: { place: string } }>(DECIDE, {
        input: { id, disposition, on: '2026-06-02' },
      });
    expect((await decide('PLACED')).decideFish.place).toBe('UNKNOWN');
    expect((await named(ours, 'F2')).inUse).toBe(false);
    expect((await decide('KEEPER')).decideFish.place).toBe('HERE');
    expect((await decide('DIED')).decideFish.place).toBe('HERE');
    expect((await fishIn(ours, { inUse: true })).has('F2')).toBe(false);
    await decide('KEEPER');
  });

  it('can be corrected, to somebody on record only', async () => {
    const { id, revision } = await named(ours, 'F1');
    const { correctFish } = await ours.graphql<{ correctFish: { place: string } }>(CORRECT, {
      input: { id, revision, swimsWithId: null },
    });
    expect(correctFish.place).toBe('UNKNOWN');
    const nobody = {
      id,
      revision: revision + 1,
      swimsWithId: '99999999-9999-4999-8999-999999999999',
    };
    const { errors } = await ours.send(CORRECT, { input: nobody });
    expect(errors?.[0]?.message).toMatch(/nobody with id .* on record/);
    const here = (await named(ours, 'M1')).swimsWith!.id;
    await ours.graphql(CORRECT, { input: { id, revision: revision + 1, swimsWithId: here } });
    expect((await named(ours, 'F1')).place).toBe('HERE');
  });

  it('files of before are read: what they say nothing of stays, and a new fish swims with the person whose record it is', async () => {
    const file = await exported(ours);
    for (const version of [1, 2]) {
      const fresh = await startApi();
      try {
        await accept(fresh, older(file, version));
        expect(await named(fresh, 'M1')).toMatchObject({ place: 'PARTNER' });
        expect(await named(fresh, 'M2')).toMatchObject({ place: 'UNKNOWN', disposition: 'PLACED' });
        expect(await accept(fresh, older(file, version))).toMatchObject({
          updated: 0,
          conflicts: 0,
        });
      } finally {
        await fresh.close();
      }
    }
    await accept(theirs, file);
    const before = await fishIn(theirs);
    expect(await accept(theirs, older(file, 2))).toMatchObject({ updated: 0, conflicts: 0 });
    expect(await fishIn(theirs)).toEqual(before);
  });
});
