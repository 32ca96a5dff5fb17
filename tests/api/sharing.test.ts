import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi } from './harness.js';
import { lineJson, sentText } from './line-files.js';

type Api = Awaited<ReturnType<typeof startApi>>;
interface Item {
  label: string;
  recordKind: string;
  outcome: string;
  changes: { field: string; before: string | null; after: string | null }[];
}
interface Report {
  added: number;
  updated: number;
  unchanged: number;
  conflicts: number;
  applied: boolean;
  lineCode: string;
  items: Item[];
}

interface FishNode {
  id: string;
  tag: string;
  note: string | null;
  revision: number;
  sire: { tag: string } | null;
  person: { here: boolean };
}

const PARTS = `senderName lineCode lineName added updated unchanged conflicts applied
  items { recordKind recordId label outcome changes { field before after } }`;
const PREVIEW = `mutation ($file: ID!) { previewShare(file: $file) { ${PARTS} } }`;
const ACCEPT = `mutation ($file: ID!) { acceptShare(file: $file) { ${PARTS} } }`;
const IMPORT = `mutation ($text: String!) { confirmImport(fileName: "f.csv", text: $text, columns: []) { fish } }`;
const CORRECT = `mutation ($input: CorrectFishInput!) { correctFish(input: $input) { id note revision } }`;
const CSV =
  'tag,sire,dam,sex,hatch_date,line,length\nS,,,male,2024-01-01,OLD,40\nD,,,female,2024-01-01,R,\nA,S,D,male,2024-06-01,R,41\nB,S,D,female,2024-06-01,R,\n';

describe('sharing a line between two installs', () => {
  let ours: Api;
  let theirs: Api;
  let file: string;

  beforeAll(async () => {
    [ours, theirs] = await Promise.all([startApi(), startApi()]);
    await ask(ours, IMPORT, { text: CSV });
    file = await exported();
  });
  afterAll(async () => {
    await Promise.all([ours.close(), theirs.close()]);
  });

  const ask = async (api: Api, query: string, variables: Record<string, unknown> = {}) =>
    (await api.send(query, variables)) as unknown as {
      data?: Record<string, unknown> | null;
      errors?: { message: string; extensions: Record<string, unknown> }[];
    };
  const lineId = async (): Promise<string> => {
    const { data } = await ask(ours, '{ lines { id code } }');
    return (data?.['lines'] as { id: string; code: string }[]).find((l) => l.code === 'R')!.id;
  };
  const exportedFrom = async (api: Api): Promise<string> => lineJson(api, await lineId());
  const exported = (): Promise<string> => exportedFrom(ours);
  const take = async (api: Api, text: string): Promise<Report> =>
    (await ask(api, ACCEPT, { file: await sentText(api, text) })).data?.['acceptShare'] as Report;
  const fishIn = async (api: Api): Promise<Map<string, FishNode>> => {
    const { data } = await ask(
      api,
      '{ fishList(first: 50) { edges { node { id tag note revision sire { tag } person { here } } } } }',
    );
    const { edges } = data?.['fishList'] as { edges: { node: FishNode }[] };
    return new Map(edges.map(({ node }) => [node.tag, node]));
  };
  const note = async (api: Api, tag: string, text: string): Promise<void> => {
    const { id, revision } = (await fishIn(api)).get(tag)!;
    const { errors } = await ask(api, CORRECT, { input: { id, revision, note: text } });
    expect(errors).toBeUndefined();
  };

  it('is looked at first and writes nothing then', async () => {
    const asked = { file: await sentText(theirs, file) };
    const preview = (await ask(theirs, PREVIEW, asked)).data?.['previewShare'] as Report;
    expect(preview).toMatchObject({ applied: false, lineCode: 'R', updated: 0, conflicts: 0 });
    expect(preview.added).toBeGreaterThan(0);
    expect((await fishIn(theirs)).size).toBe(0);
  });

  it('brings the line and the ancestors it needs, ids kept, and a second time nothing', async () => {
    const first = await take(theirs, file);
    expect(first).toMatchObject({ applied: true, updated: 0, unchanged: 0, conflicts: 0 });
    const [here, there] = [await fishIn(ours), await fishIn(theirs)];
    expect([...there.keys()].sort()).toEqual(['A', 'B', 'D', 'S']);
    for (const [tag, fish] of there) {
      expect(fish).toMatchObject({ id: here.get(tag)?.id, person: { here: false } });
    }
    expect(there.get('A')?.sire).toEqual({ tag: 'S' });
    const second = await take(theirs, file);
    expect(second).toMatchObject({ added: 0, updated: 0, conflicts: 0, unchanged: first.added });
    expect(await fishIn(theirs)).toEqual(there);
  });

  it('takes what they changed, keeps what we changed, and shows what both changed', async () => {
    await note(ours, 'A', 'ours');
    await note(ours, 'D', 'ours');
    await note(theirs, 'A', 'theirs');
    await note(theirs, 'B', 'theirs');
    const report = await take(theirs, await exported());
    expect(report).toMatchObject({ added: 0, updated: 1, conflicts: 1 });
    expect(report.items.filter((item) => item.outcome !== 'UNCHANGED')).toMatchObject([
      {
        label: 'A',
        outcome: 'CONFLICT',
        changes: [{ field: 'note', before: 'theirs', after: 'ours' }],
      },
      { label: 'D', outcome: 'UPDATED' },
      { label: 'B', outcome: 'KEPT_LOCAL' },
    ]);
    const there = await fishIn(theirs);
    expect(['A', 'B', 'D'].map((tag) => there.get(tag)?.note)).toEqual([
      'theirs',
      'theirs',
      'ours',
    ]);
  });

  it('brings their changes back and still overwrites nothing changed on both sides', async () => {
    const report = await take(ours, await exportedFrom(theirs));
    expect(report).toMatchObject({ added: 0, updated: 1, conflicts: 1 });
    const here = await fishIn(ours);
    expect(['A', 'B', 'D'].map((tag) => here.get(tag)?.note)).toEqual(['ours', 'theirs', 'ours']);
    expect(here.get('A')?.person).toEqual({ here: true });
  });

  it('does not turn records back when the first file is read again', async () => {
    const before = await fishIn(theirs);
    expect(await take(theirs, file)).toMatchObject({ added: 0, updated: 0 });
    expect(await fishIn(theirs)).toEqual(before);
  });

  it('refuses what is no line file, is not whole, or would make a fish its own ancestor', async () => {
    const refused = async (text: string): Promise<string | undefined> => {
      const asked = { file: await sentText(theirs, text) };
      const error = (await ask(theirs, ACCEPT, asked)).errors?.[0];
      expect(error?.extensions['code']).toBe('SHARE_INVALID');
      return error?.message;
    };
    expect(await refused('{}')).toContain('its format is not');
    const elsewhere = '99999999-9999-4999-8999-999999999999';
    type Records = Record<'fish' | 'spawns', { id: string; [field: string]: unknown }[]>;
    const changed = (change: (records: Records) => void): string => {
      const copy = JSON.parse(file) as {
        records: Records;
        stamps: Record<string, number>[];
        versions: Record<string, unknown>;
      };
      // Made by one who knew all that had been.
      copy.stamps = copy.stamps.map((stamp) => ({ ...stamp, [elsewhere]: 1 }));
      copy.versions[elsewhere] = 0;
      change(copy.records);
      return JSON.stringify(copy);
    };
    const before = await fishIn(theirs);
    const strange = changed(({ spawns }) => Object.assign(spawns[0]!, { damId: elsewhere }));
    expect(await refused(strange)).toContain('neither in it nor recorded here');
    const circle = changed(({ fish, spawns }) => {
      Object.assign(
        fish.find((f) => f['tag'] === 'S')!,
        { spawnId: spawns[0]!.id },
      );
    });
    expect(await refused(circle)).toContain('its own ancestor');
    const clash = changed(({ fish }) => {
      fish.push({ ...fish.find((f) => f['tag'] === 'B')!, id: elsewhere });
    });
    expect(await refused(clash)).toContain('the same name and the same owner');
    expect(await fishIn(theirs)).toEqual(before);
  });

  it('gives a line to nobody without a session', async () => {
    const response = await fetch(new URL(`/export/line/${await lineId()}.zip`, ours.url));
    expect(response.status).toBe(401);
  });
});
