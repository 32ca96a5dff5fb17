import {
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { writeNotice } from '../../apps/api/src/sharing/exchange/key-notice.js';
import { LentLinesService } from '../../apps/api/src/sharing/exchange/lent-lines.service.js';
import { readPairingCode } from '../../apps/api/src/sharing/partners/pairing-code.js';
import { newRecords } from '../new-records.js';
import { recordsOf, type RunningApi, startApi } from './harness.js';
import { lineFile, otherKeys, sent } from './line-files.js';
import {
  exchange,
  grant,
  ownInstall,
  pair,
  pairUp,
  type Partner,
  setFolder,
  takeOffered,
} from './paired-installs.js';

const IMPORT = `mutation ($text: String!) { confirmImport(fileName: "f.csv", text: $text, columns: []) { fish } }`;
const CSV =
  'tag,sire,dam,sex,hatch_date,line\nG,,,male,2023-01-01,OLD\nH,,,female,2023-01-01,OLD\nS,G,H,male,2024-01-01,OLD\nD,,,female,2024-01-01,R\nA,S,D,male,2024-06-01,R\nB,S,D,female,2024-06-01,R\n';

interface Fish {
  readonly id: string;
  readonly tag: string;
  readonly note: string | null;
  readonly name: string | null;
  readonly revision: number;
  readonly inbreeding: number | null;
  readonly sire: { readonly id: string } | null;
}

const fishIn = async (api: RunningApi): Promise<Map<string, Fish>> => {
  const { fishList } = await api.graphql<{ fishList: { edges: { node: Fish }[] } }>(
    '{ fishList(first: 50) { edges { node { id tag note name revision sire { id } } } } }',
  );
  return new Map(fishList.edges.map(({ node }) => [node.tag, node]));
};

const correct = async (api: RunningApi, tag: string, fields: object): Promise<void> => {
  const { id, revision } = (await fishIn(api)).get(tag)!;
  await api.graphql('mutation ($input: CorrectFishInput!) { correctFish(input: $input) { id } }', {
    input: { id, revision, ...fields },
  });
};

describe('a line between two installs, through a folder', () => {
  let a: RunningApi;
  let b: RunningApi;
  let folder = '';
  let ofB: Partner;
  let ofA: Partner;
  let line = '';

  beforeAll(async () => {
    [a, b] = await Promise.all([startApi(), startApi()]);
    await a.graphql(IMPORT, { text: CSV });
    const { lines } = await a.graphql<{ lines: { id: string; code: string }[] }>(
      '{ lines { id code } }',
    );
    line = lines.find(({ code }) => code === 'R')!.id;
  });
  afterAll(() => Promise.all([a.close(), b.close()]));

  const written = (from: string): string[] =>
    readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter(
      (name) => name.includes(`from-${from}`) && name.endsWith('.age'),
    );
  const lineOf = (partner: Partner) => partner.lines.find(({ lineId }) => lineId === line);

  it('is paired by codes that show the same words on both screens', async () => {
    ({ folder, ofB, ofA } = await pairUp(a, b));
    expect([ofB.words, ofA.words]).toEqual([
      (await ownInstall(b)).words,
      (await ownInstall(a)).words,
    ]);
    expect([ofB.person.name, ofA.person.name]).toEqual(['Runa', 'Anna']);
    const { accounts } = await a.graphql<{ accounts: object[] }>(
      '{ accounts { paired joined invitedUntil person { name } } }',
    );
    expect(accounts.slice(1)).toEqual([
      { paired: true, joined: false, invitedUntil: null, person: { name: 'Runa' } },
    ]);
  });

  it('is refused an own code, half a code, a name that somebody has, and a folder that cannot be used', async () => {
    const own = await ownInstall(a);
    await expect(pair(a, own.code)).rejects.toThrow(/code of this install itself/);
    await expect(pair(a, own.code.slice(0, 60))).rejects.toThrow(/not a whole code/);
    const third = await startApi();
    try {
      const { code } = await ownInstall(third);
      await expect(pair(a, code, 'runa')).rejects.toThrow(/choose another name/);
      const other = await pair(a, code, 'Runa of the east');
      expect(other.words).not.toBe(ofB.words);
      const early = await setFolder(a, other.id, folder);
      expect(early.errors?.[0]?.message).toMatch(/Compare the words/);
    } finally {
      await third.close();
    }
    for (const [path, words] of [
      ['shared/line', /not a whole path/],
      [join(folder, 'nowhere'), /There is no folder/],
      [process.cwd() + '/package.json', /There is no folder/],
    ] as const) {
      const { errors } = await setFolder(a, ofB.id, path);
      expect(errors?.[0]?.message).toMatch(words);
    }
  });

  it('gives nothing before a line is granted, then what the grant gives, which only the partner can read', async () => {
    expect((await exchange(a, ofB.id)).problem).toBeNull();
    expect(written(ofA.id)).toEqual([]);
    await correct(a, 'A', { note: 'a secret of ours' });
    await grant(a, ofB.person.id, line, { notes: false, place: false });
    const sent = lineOf(await exchange(a, ofB.id));
    expect(sent).toMatchObject({ problem: null, lineCode: null });
    expect(sent?.sentAt).not.toBeNull();
    const [name] = written(ofA.id);
    // On a shared disk the partner's program runs as another user.
    expect(statSync(join(folder, name!)).mode & 0o044).toBe(0o044);
    const bytes = readFileSync(join(folder, name!));
    expect(bytes.toString('latin1')).toMatch(/^age-encryption\.org\/v1/);
    expect(bytes.includes('secret')).toBe(false);
  });

  it('is offered to the partner, taken in when they say so, with ancestors outside of it unnamed', async () => {
    const offered = lineOf(await exchange(b, ofA.id));
    expect(offered).toMatchObject({ lineCode: 'R', line: null, taken: 0, problem: null });
    expect((await fishIn(b)).size).toBe(0);
    const taken = lineOf(await takeOffered(b, ofA.id, line));
    expect(taken).toMatchObject({ line: { code: 'R' }, leftOut: 0, problem: null });
    const [here, there] = [await fishIn(a), await fishIn(b)];
    for (const tag of ['A', 'B', 'D']) expect(there.get(tag)?.id).toBe(here.get(tag)?.id);
    expect(there.get('A')?.note).toBeNull();
    const names = [...there.keys()];
    expect(names.filter((tag) => ['S', 'G', 'H'].includes(tag))).toEqual([]);
    expect(names.filter((tag) => tag.startsWith('not shown'))).toHaveLength(3);
    // Parentage is whole.
    expect(there.get('A')?.sire?.id).toBe(here.get('S')?.id);
  });

  it('brings changes of both together without a question, and what was not given stays as it is', async () => {
    await correct(b, 'B', { name: 'Ember', note: 'seen by Runa' });
    await exchange(b, ofA.id);
    expect(lineOf(await exchange(a, ofB.id))).toMatchObject({
      taken: 1,
      leftOut: 0,
      problem: null,
    });
    const here = await fishIn(a);
    expect(here.get('B')).toMatchObject({ name: 'Ember', note: 'seen by Runa' });
    expect(here.get('A')?.note).toBe('a secret of ours');
    expect(here.get('S')).toBeDefined();
    const waiting = await a.graphql<{ differences: { totalCount: number } }>(
      '{ differences(first: 5) { totalCount } }',
    );
    expect(waiting.differences.totalCount).toBe(0);
    // Granted later, it comes without a question.
    await grant(a, ofB.person.id, line);
    await exchange(a, ofB.id);
    expect(lineOf(await exchange(b, ofA.id))).toMatchObject({ problem: null });
    expect((await fishIn(b)).get('A')?.note).toBe('a secret of ours');
  });

  it('lists what came without a look, and takes it back by one press, but what was changed since', async () => {
    await correct(b, 'A', { name: 'First' });
    await correct(b, 'B', { name: 'Second' });
    await newRecords(b).createFish({ tag: 'NEW', sex: 'MALE', lineId: line });
    await exchange(b, ofA.id);
    expect(lineOf(await exchange(a, ofB.id))).toMatchObject({ problem: null, leftOut: 0 });
    type Came = { whatCame: { recordKind: string; by: string; changes: { field: string }[] }[] };
    const at = { i: ofB.id, l: line };
    const { whatCame } = await a.graphql<Came>(
      'query ($i: ID!, $l: ID!) { whatCame(installId: $i, lineId: $l) { recordKind by changes { field } } }',
      at,
    );
    expect(whatCame.filter(({ recordKind }) => recordKind === 'FISH')).toHaveLength(3);
    expect(new Set(whatCame.map(({ by }) => by))).toEqual(new Set(['Runa']));
    await correct(a, 'B', { name: 'Changed since' });
    const { takeBackWhatCame } = await a.graphql<{
      takeBackWhatCame: { taken: number; left: number };
    }>(
      'mutation ($i: ID!, $l: ID!) { takeBackWhatCame(installId: $i, lineId: $l) { taken left } }',
      at,
    );
    expect(takeBackWhatCame.left).toBe(1);
    const here = await fishIn(a);
    expect(here.get('A')?.name).toBeNull();
    expect(here.get('B')?.name).toBe('Changed since');
    expect(here.has('NEW')).toBe(false);
    // It goes out as a change of this install, and nobody is asked.
    await exchange(a, ofB.id);
    await exchange(b, ofA.id);
    const there = await fishIn(b);
    expect([there.get('A')?.name, there.get('B')?.name, there.has('NEW')]).toEqual([
      ...[null, 'Changed since', false],
    ]);
    await correct(a, 'B', { name: 'Ember' });
    await exchange(a, ofB.id);
    await exchange(b, ofA.id);
  });

  it('changes nothing when files are replayed, and writes nothing while nothing is new', async () => {
    const [name] = written(ofA.id);
    const path = join(folder, name!);
    const before = readFileSync(path);
    await exchange(a, ofB.id);
    expect(readFileSync(path)).toEqual(before);
    await correct(a, 'D', { note: 'newer' });
    await exchange(a, ofB.id);
    await exchange(b, ofA.id);
    expect((await fishIn(b)).get('D')?.note).toBe('newer');
    writeFileSync(path, before);
    expect(lineOf(await exchange(b, ofA.id))).toMatchObject({ taken: 0, problem: null });
    expect((await fishIn(b)).get('D')?.note).toBe('newer');
  });

  it('survives half-written and foreign files, and a folder that goes away and comes back', async () => {
    await exchange(a, ofB.id);
    const [name] = written(ofA.id);
    const path = join(folder, name!);
    const whole = readFileSync(path);
    writeFileSync(path, whole.subarray(0, whole.length - 40));
    await correct(a, 'A', { name: 'Amber' });
    expect(lineOf(await exchange(b, ofA.id))?.problem).toMatch(/cannot be opened/);
    // Ours writes it again only when it has something new to say; here it has.
    await exchange(a, ofB.id);
    expect(lineOf(await exchange(b, ofA.id))).toMatchObject({ problem: null, taken: 1 });
    renameSync(folder, `${folder}-away`);
    expect((await exchange(b, ofA.id)).problem).toMatch(/is not there or cannot be used/);
    await correct(b, 'A', { note: 'while it was away' });
    expect((await exchange(b, ofA.id)).problem).toMatch(/Nothing is lost/);
    renameSync(`${folder}-away`, folder);
    expect((await exchange(b, ofA.id)).problem).toBeNull();
    await exchange(a, ofB.id);
    expect((await fishIn(a)).get('A')).toMatchObject({ note: 'while it was away', name: 'Amber' });
  });

  it('carries pictures beside the line; one that is still on its way waits', async () => {
    const fish = (await fishIn(a)).get('A')!;
    const image = await sharp({
      create: { width: 90, height: 60, channels: 3, background: '#993311' },
    })
      .png()
      .toBuffer();
    const id = crypto.randomUUID();
    const added = await a.http(`/photos/${id}?kind=fish&of=${fish.id}`, {
      method: 'PUT',
      body: new Uint8Array(image),
      headers: { origin: a.url },
    });
    expect(added.status).toBe(200);
    await exchange(a, ofB.id);
    const picture = join(
      folder,
      written(ofA.id).find((name) => name.includes('picture'))!,
    );
    const whole = readFileSync(picture);
    writeFileSync(picture, whole.subarray(0, 300));
    expect(lineOf(await exchange(b, ofA.id))).toMatchObject({ photosWaiting: 1, problem: null });
    expect((await b.http(`/photos/${id}`)).status).toBe(404);
    writeFileSync(picture, whole);
    expect(lineOf(await exchange(b, ofA.id))).toMatchObject({ photosWaiting: 0, taken: 1 });
    expect((await b.http(`/photos/${id}`)).status).toBe(200);
  });

  it('tells of a third that uses the same folder', async () => {
    expect((await exchange(a, ofB.id)).strangers).toBe(0);
    const [x, y] = [crypto.randomUUID(), crypto.randomUUID()];
    mkdirSync(join(folder, `linewright-from-${x}-for-${y}`));
    expect((await exchange(a, ofB.id)).strangers).toBe(2);
  });

  it('lets in no more than the grant gives', async () => {
    await grant(a, ofB.person.id, line, { level: 'LOOK' });
    await correct(b, 'D', { note: 'not asked for' });
    await exchange(b, ofA.id);
    expect(lineOf(await exchange(a, ofB.id))).toMatchObject({ taken: 0, leftOut: 1 });
    expect((await fishIn(a)).get('D')?.note).toBe('newer');
  });

  it('writes again what was cut off or is gone in its own part of the folder, though nothing is new', async () => {
    await grant(a, ofB.person.id, line);
    await exchange(a, ofB.id);
    await exchange(b, ofA.id);
    await exchange(a, ofB.id);
    for (const part of ['line', 'picture']) {
      const path = join(
        folder,
        written(ofA.id).find((name) => name.includes(part))!,
      );
      const whole = readFileSync(path);
      writeFileSync(path, whole.subarray(0, 100));
      await exchange(a, ofB.id);
      expect(readFileSync(path).length).toBeGreaterThan(100);
      rmSync(path);
      await exchange(a, ofB.id);
      expect(readFileSync(path).length).toBeGreaterThan(100);
    }
    expect(lineOf(await exchange(b, ofA.id))).toMatchObject({ problem: null });
  });

  it('reads no line of which nothing changed on either side', async () => {
    await exchange(b, ofA.id);
    await exchange(a, ofB.id);
    const read = vi.spyOn(LentLinesService.prototype, 'lent');
    await exchange(a, ofB.id);
    expect(read).toHaveBeenCalledTimes(0);
    await correct(a, 'B', { name: 'Ember two' });
    await exchange(a, ofB.id);
    expect(read).toHaveBeenCalledTimes(1);
    await grant(a, ofB.person.id, line, { notes: false });
    await exchange(a, ofB.id);
    expect(read).toHaveBeenCalledTimes(2);
    read.mockRestore();
  });

  it('is told, and not left out without a word, while another process is at it', async () => {
    const other = (await recordsOf(a)).createQueryRunner();
    try {
      await other.query('SELECT pg_advisory_lock(hashtext($1))', [`exchange ${ofB.id}`]);
      const ask = `mutation ($id: ID!) { exchangeNow(installId: $id) { underWay lookedAt } }`;
      const { exchangeNow } = await a.graphql<{ exchangeNow: Partner }>(ask, { id: ofB.id });
      expect(exchangeNow.underWay).toBe(true);
      const list = '{ partnerInstalls { id underWay } }';
      const { partnerInstalls } = await a.graphql<{ partnerInstalls: Partner[] }>(list);
      expect(partnerInstalls.filter(({ underWay }) => underWay).map(({ id }) => id)).toEqual([
        ofB.id,
      ]);
      await other.query('SELECT pg_advisory_unlock(hashtext($1))', [`exchange ${ofB.id}`]);
    } finally {
      await other.release();
    }
    expect((await exchange(a, ofB.id)).underWay).toBe(false);
  });

  it('ends: what was granted is taken out of the folder, and a key that was taken back is refused', async () => {
    await a.graphql(
      'mutation ($p: ID!, $l: ID!) { endLineGrant(personId: $p, lineId: $l) { level } }',
      {
        ...{ p: ofB.person.id, l: line },
      },
    );
    const left = await exchange(a, ofB.id);
    expect(written(ofA.id)).toEqual([]);
    // Theirs is still in the folder, so it stands there as a line that they offer.
    expect(lineOf(left)).toBeDefined();
    await b.graphql(
      'mutation ($p: ID!, $l: ID!) { endLineGrant(personId: $p, lineId: $l) { level } }',
      { p: ofA.person.id, l: line },
    );
    await exchange(b, ofA.id);
    expect(lineOf(await exchange(a, ofB.id))).toBeUndefined();
    const ended = await a.graphql<{ endInstall: Partner }>(
      'mutation ($id: ID!) { endInstall(installId: $id, reason: "the laptop was stolen") { endedAt } }',
      { id: ofB.id },
    );
    expect(ended.endInstall.endedAt).not.toBeNull();
    const file = await sent(a, await lineFile(b, line));
    const { errors } = await a.send(
      'mutation ($file: ID!) { previewShare(file: $file) { added } }',
      { file },
    );
    expect(errors?.[0]?.message).toMatch(/taken back here \(the laptop was stolen\)/);
    const rows = (await (
      await recordsOf(a)
    ).query('SELECT folder FROM partner_install WHERE install_id = $1', [ofB.id])) as object[];
    expect(rows).toEqual([{ folder: null }]);
    // The partner reads of it in the folder.
    expect(await exchange(b, ofA.id)).toMatchObject({ refusedReason: 'the laptop was stolen' });
    expect(written(ofB.id)).toEqual([]);
    const again = await exchange(b, ofA.id);
    expect(again.refusedAt).not.toBeNull();
  });

  it('tells nobody by a forged notice', async () => {
    const [notice] = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) =>
      name.endsWith('key-taken-back.age'),
    );
    const { readingKey } = readPairingCode((await ownInstall(b)).code);
    const keys = { ...(await otherKeys()), install: ofA.id };
    const forged = await writeNotice({ at: new Date(0).toISOString(), reason: 'forged' }, keys, {
      ...{ installId: ofB.id, readingKey },
    });
    writeFileSync(join(folder, notice!), forged);
    expect(await exchange(b, ofA.id)).toMatchObject({ refusedAt: null, refusedReason: null });
  });

  it('is taken up again by pairing again, on both sides', async () => {
    const paired = await pair(a, (await ownInstall(b)).code);
    expect(paired).toMatchObject({ endedAt: null, refusedAt: null });
  });
});
