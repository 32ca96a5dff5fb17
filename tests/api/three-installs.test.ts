import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { recordsOf, type RunningApi, startApi } from './harness.js';
import { lineJson, sentText } from './line-files.js';

interface Report {
  readonly added: number;
  readonly updated: number;
  readonly conflicts: number;
}
interface Version {
  readonly key: string;
  readonly here: boolean;
  readonly from: string[];
  readonly values: { readonly field: string; readonly value: string | null }[];
}
interface Waiting {
  readonly recordId: string;
  readonly label: string;
  readonly recordKind: string;
  readonly differences: { readonly part: string; readonly versions: Version[] }[];
}

const PARTS = `recordId recordKind label differences { part versions { key here from values { field value } } }`;
const CSV =
  'tag,sire,dam,sex,hatch_date,line\nS,,,male,2024-01-01,R\nD,,,female,2024-01-01,R\nA,S,D,male,2024-06-01,R\nB,S,D,female,2024-06-01,R\n';

describe('a line in three installs', () => {
  let installs: RunningApi[];
  let lineId: string;

  beforeAll(async () => {
    installs = await Promise.all([startApi(), startApi(), startApi()]);
    const [first] = installs as [RunningApi];
    await first.graphql(
      'mutation ($text: String!) { confirmImport(fileName: "f.csv", text: $text, columns: []) { fish } }',
      { text: CSV },
    );
    const { lines } = await first.graphql<{ lines: { id: string }[] }>('{ lines { id } }');
    lineId = lines[0]!.id;
  });
  afterAll(async () => {
    await Promise.all(installs.map((api) => api.close()));
  });

  const give = (from: number): Promise<string> => lineJson(installs[from]!, lineId);
  const take = async (to: number, text: string): Promise<Report> => {
    const { acceptShare } = await installs[to]!.graphql<{ acceptShare: Report }>(
      'mutation ($file: ID!) { acceptShare(file: $file) { added updated conflicts } }',
      { file: await sentText(installs[to]!, text) },
    );
    return acceptShare;
  };
  const pass = async (from: number, to: number): Promise<Report> => take(to, await give(from));
  const fishOf = async (at: number, tag: string) => {
    const { fishList } = await installs[at]!.graphql<{
      fishList: { edges: { node: Record<string, string | number | null> }[] };
    }>('{ fishList(first: 50) { edges { node { id tag note name sex revision } } } }');
    return fishList.edges.map(({ node }) => node).find((fish) => fish['tag'] === tag)!;
  };
  const correct = async (at: number, tag: string, fields: object): Promise<void> => {
    const { id, revision } = await fishOf(at, tag);
    await installs[at]!.graphql(
      'mutation ($input: CorrectFishInput!) { correctFish(input: $input) { id } }',
      { input: { id, revision, ...fields } },
    );
  };
  const waiting = async (at: number): Promise<Waiting[]> => {
    const { differences } = await installs[at]!.graphql<{
      differences: { edges: { node: Waiting }[] };
    }>(`{ differences(first: 20) { edges { node { ${PARTS} } } } }`);
    return differences.edges.map(({ node }) => node).filter((each) => each.differences.length > 0);
  };
  const decide = (at: number, input: object) =>
    installs[at]!.graphql<{ decideDifference: Waiting }>(
      `mutation ($input: DecideDifferenceInput!) { decideDifference(input: $input) { ${PARTS} } }`,
      { input },
    );

  it('goes around: each takes what the others changed, also by way of another, and nobody is asked', async () => {
    expect(await pass(0, 1)).toMatchObject({ updated: 0, conflicts: 0 });
    expect(await pass(1, 2)).toMatchObject({ updated: 0, conflicts: 0 });
    await correct(0, 'A', { note: 'by the first' });
    await correct(1, 'B', { note: 'by the second' });
    await correct(2, 'A', { name: 'by the third' });
    // One part of A here, another there.
    expect(await pass(2, 1)).toEqual({ added: 0, updated: 1, conflicts: 0 });
    expect(await pass(1, 0)).toEqual({ added: 0, updated: 2, conflicts: 0 });
    expect(await pass(0, 2)).toEqual({ added: 0, updated: 2, conflicts: 0 });
    expect(await pass(2, 1)).toEqual({ added: 0, updated: 1, conflicts: 0 });
    for (const at of [0, 1, 2]) {
      expect(await fishOf(at, 'A')).toMatchObject({ note: 'by the first', name: 'by the third' });
      expect(await fishOf(at, 'B')).toMatchObject({ note: 'by the second' });
      expect(await waiting(at)).toEqual([]);
    }
    // The first to change it again is not held up by whose change it was before.
    await correct(1, 'A', { note: 'by the second' });
    expect(await pass(1, 2)).toEqual({ added: 0, updated: 1, conflicts: 0 });
    expect(await pass(2, 0)).toEqual({ added: 0, updated: 1, conflicts: 0 });
    expect(await pass(0, 1)).toEqual({ added: 0, updated: 0, conflicts: 0 });
  });

  it('a file read again, or an old one after a newer, changes nothing', async () => {
    const old = await give(0);
    await correct(0, 'D', { note: 'newer' });
    expect(await pass(0, 1)).toMatchObject({ updated: 1 });
    expect(await take(1, old)).toEqual({ added: 0, updated: 0, conflicts: 0 });
    expect(await fishOf(1, 'D')).toMatchObject({ note: 'newer' });
    await pass(1, 2);
  });

  it('what was changed in two places is shown with both values, and one decision settles it in all three', async () => {
    await correct(0, 'S', { note: 'as the first has it' });
    await correct(2, 'S', { note: 'as the third has it' });
    expect(await pass(0, 1)).toEqual({ added: 0, updated: 1, conflicts: 0 });
    expect(await pass(2, 1)).toEqual({ added: 0, updated: 0, conflicts: 1 });
    expect(await pass(1, 0)).toEqual({ added: 0, updated: 0, conflicts: 1 });
    // What each shows stays until someone decides.
    expect(await fishOf(0, 'S')).toMatchObject({ note: 'as the first has it' });
    expect(await fishOf(1, 'S')).toMatchObject({ note: 'as the first has it' });
    const [record] = await waiting(1);
    expect(record).toMatchObject({
      ...{ recordKind: 'FISH', label: 'S' },
      differences: [
        {
          part: 'note',
          versions: [
            { here: true, values: [{ field: 'note', value: 'as the first has it' }] },
            { here: false, values: [{ field: 'note', value: 'as the third has it' }] },
          ],
        },
      ],
    });
    const [difference] = record!.differences;
    expect(difference!.versions.map(({ from }) => from.length)).toEqual([1, 1]);
    const other = difference!.versions.find(({ here }) => !here)!;
    const choice = { recordId: record!.recordId, part: 'note', version: other.key };
    const { decideDifference } = await decide(1, choice);
    expect(decideDifference.differences).toEqual([]);
    expect(await fishOf(1, 'S')).toMatchObject({ note: 'as the third has it' });
    await expect(decide(1, choice)).rejects.toThrow(/decided meanwhile/);
    expect(await pass(1, 0)).toEqual({ added: 0, updated: 1, conflicts: 0 });
    expect(await pass(1, 2)).toMatchObject({ conflicts: 0 });
    for (const at of [0, 1, 2]) {
      expect(await fishOf(at, 'S')).toMatchObject({ note: 'as the third has it' });
      expect(await waiting(at)).toEqual([]);
    }
    const history = (await (
      await recordsOf(installs[1]!)
    ).query(
      `SELECT action, changes FROM record_history WHERE record_id = $1 ORDER BY revision DESC LIMIT 1`,
      [record!.recordId],
    )) as object[];
    expect(history).toMatchObject([
      { action: 'corrected', changes: { note: { after: 'as the third has it' } } },
    ]);
  });

  it('a change of what waits decides it as well', async () => {
    await correct(0, 'B', { note: 'one' });
    await correct(1, 'B', { note: 'two' });
    expect(await pass(0, 1)).toMatchObject({ conflicts: 1 });
    expect(await waiting(1)).toHaveLength(1);
    await correct(1, 'B', { note: 'both' });
    expect(await waiting(1)).toEqual([]);
    expect(await pass(1, 0)).toEqual({ added: 0, updated: 1, conflicts: 0 });
    expect(await fishOf(0, 'B')).toMatchObject({ note: 'both' });
  });

  it('parents that differ are told by their tags', async () => {
    for (const [at, change] of [{ damId: null }, { sireId: null }].entries()) {
      const { spawnList } = await installs[at]!.graphql<{
        spawnList: { edges: { node: { id: string; revision: number } }[] };
      }>('{ spawnList(first: 5) { edges { node { id revision } } } }');
      const { id, revision } = spawnList.edges[0]!.node;
      await installs[at]!.graphql(
        'mutation ($input: CorrectSpawnInput!) { correctSpawn(input: $input) { id } }',
        { input: { id, revision, ...change } },
      );
    }
    expect(await pass(0, 1)).toMatchObject({ conflicts: 1 });
    const [record] = await waiting(1);
    const [difference] = record!.differences;
    const values = difference!.versions.map((version) =>
      Object.fromEntries(version.values.map(({ field, value }) => [field, value])),
    );
    expect(values).toEqual([
      { sireId: null, damId: 'D' },
      { sireId: 'S', damId: null },
    ]);
    const version = difference!.versions.find(({ here }) => here)!.key;
    await decide(1, { recordId: record!.recordId, part: difference!.part, version });
    expect(await pass(1, 0)).toMatchObject({ updated: 1, conflicts: 0 });
  });

  it('withdrawn in two places is withdrawn', async () => {
    for (const at of [0, 1]) {
      const { id, revision } = await fishOf(at, 'B');
      await installs[at]!.graphql(
        'mutation ($input: WithdrawInput!) { withdrawFish(input: $input) { id } }',
        { input: { id, revision, reason: `seen in ${at}` } },
      );
    }
    expect(await pass(0, 1)).toMatchObject({ conflicts: 0 });
    expect(await pass(1, 0)).toMatchObject({ conflicts: 0 });
    expect(await waiting(0)).toEqual([]);
  });

  it('records that were alike in two places before they met are changed by whoever changes them', async () => {
    const copied = await Promise.all([
      startApi({ signedIn: false }),
      startApi({ signedIn: false }),
    ]);
    try {
      for (const api of copied) await api.graphql('mutation { loadDemo { signedIn } }');
      const [north, south] = copied as [RunningApi, RunningApi];
      const { lines } = await north.graphql<{ lines: { id: string }[] }>('{ lines { id } }');
      const line = (): Promise<string> => lineJson(north, lines[0]!.id);
      const accept = async (text: string): Promise<object> => {
        const { acceptShare } = await south.graphql<{ acceptShare: Report & { items: object[] } }>(
          `mutation ($file: ID!) { acceptShare(file: $file) { added updated conflicts
             items { label outcome changes { field after } } } }`,
          { file: await sentText(south, text) },
        );
        const items = acceptShare.items.filter(
          (item) => (item as { outcome: string }).outcome !== 'UNCHANGED',
        );
        return { ...acceptShare, items };
      };
      const change = async (api: RunningApi, fields: object): Promise<void> => {
        const { fishList } = await api.graphql<{
          fishList: { edges: { node: { id: string; revision: number } }[] };
        }>('{ fishList(first: 1) { edges { node { id revision } } } }');
        await api.graphql(
          'mutation ($input: CorrectFishInput!) { correctFish(input: $input) { id } }',
          { input: { ...fishList.edges[0]!.node, ...fields } },
        );
      };
      expect(await accept(await line())).toEqual({ added: 0, updated: 0, conflicts: 0, items: [] });
      await change(north, { name: 'Amber', note: 'as the north has it' });
      await change(south, { note: 'as the south has it' });
      // What one side changed is taken, what both did is told beside it.
      expect(await accept(await line())).toMatchObject({
        ...{ added: 0, updated: 1, conflicts: 1 },
        items: [
          { outcome: 'CONFLICT', changes: [{ field: 'note', after: 'as the north has it' }] },
          { outcome: 'UPDATED', changes: [{ field: 'name', after: 'Amber' }] },
        ],
      });
    } finally {
      await Promise.all(copied.map((api) => api.close()));
    }
  });

  it('refuses versions that say what cannot be, and changes nothing', async () => {
    const whole = JSON.parse(await give(0)) as {
      stamps: Record<string, number>[];
      versions: Record<string, unknown>;
      records: { fish: { id: string; tag: string }[] };
    };
    const a = whole.records.fish.find(({ tag }) => tag === 'A')!.id;
    const refused = async (versions: unknown, words: RegExp): Promise<void> => {
      const text = JSON.stringify({ ...whole, versions: { ...whole.versions, [a]: versions } });
      const { errors } = await installs[1]!.send(
        'mutation ($file: ID!) { acceptShare(file: $file) { added } }',
        { file: await sentText(installs[1]!, text) },
      );
      expect(errors?.[0]?.extensions['code']).toBe('SHARE_INVALID');
      expect(errors?.[0]?.message).toMatch(words);
    };
    const before = await fishOf(1, 'A');
    await refused(undefined, /no "versions"/);
    await refused(whole.stamps.length, /stamp \d+, which is missing/);
    const other = (values: unknown[], name = 'sex') => ({
      ...{ all: 0, others: { [name]: [{ stamp: 0, values }] } },
    });
    await refused(other(['neither']), /"sex" \("neither"\) cannot be taken/);
    await refused(other(['male', 'female']), /"sex" has 2 values/);
    await refused(other(['male'], 'colour'), /"colour" has 1 values/);
    expect(await fishOf(1, 'A')).toEqual(before);
  });
});
