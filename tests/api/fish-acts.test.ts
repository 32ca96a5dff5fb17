import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type RunningApi, startApi } from './harness.js';
import { creation, newRecords } from '../new-records.js';

interface Fish {
  id: string;
  tag: string;
  revision: number;
}
interface Told {
  action: string;
  recordId: string;
  actId: string | null;
  changes: { field: string; before: string | null; after: string | null }[];
}
interface Act {
  id: string;
  what: string;
  fishCount: number;
  takenBackAt: string | null;
  takenBackBy: string | null;
  fish: Fish[];
  history: Told[];
  inTheWay: { id: string; tag: string; why: string }[];
}

const CHANGE = `mutation ($input: ChangeFishTogetherInput!) {
  changeFishTogether(input: $input) { id what fishCount fish { id tag revision } } }`;
const PREVIEW = `query ($input: ChangeFishTogetherInput!) {
  previewFishTogether(input: $input) {
    fish { id tag changes { field before after } } inTheWay { id tag why } } }`;
const ACT = `query ($id: ID!) { fishAct(id: $id) {
  id what fishCount takenBackAt takenBackBy fish { id tag revision }
  history { action recordId actId changes { field before after } } inTheWay { id tag why } } }`;
const BACK = 'mutation ($id: ID!) { takeBackFishAct(id: $id) { id takenBackAt takenBackBy } }';
const FISH = `query ($id: ID!) { fish(id: $id) {
  id tag revision disposition dispositionDate dispositionReason place line { code } withdrawn { reason }
  history { action actId } } }`;

describe('acts for several fish, taken back as one', () => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi();
  });
  afterAll(() => api.close());

  const made = async (...tags: string[]): Promise<Fish[]> => {
    const fish: Fish[] = [];
    for (const tag of tags)
      fish.push(
        (
          await api.graphql<{ createFish: Fish }>(creation('createFish', 'id tag revision'), {
            input: { tag, sex: 'MALE', hatchDate: '2025-01-01' },
          })
        ).createFish,
      );
    return fish;
  };
  const line = async (code: string): Promise<{ id: string; revision: number }> =>
    (
      await api.graphql<{ createLine: { id: string; revision: number } }>(
        creation('createLine', 'id revision'),
        { input: { code, name: code } },
      )
    ).createLine;
  const input = (fish: Fish[], act: object) => ({
    input: { fish: fish.map(({ id, revision }) => ({ id, revision })), ...act },
  });
  const change = async (fish: Fish[], act: object): Promise<Act> =>
    (await api.graphql<{ changeFishTogether: Act }>(CHANGE, input(fish, act))).changeFishTogether;
  const act = async (id: string) => (await api.graphql<{ fishAct: Act }>(ACT, { id })).fishAct;
  const takeBack = (id: string) => api.send<{ takeBackFishAct: Act }>(BACK, { id });
  const state = async ({ id }: Fish) =>
    (await api.graphql<{ fish: Record<string, unknown> }>(FISH, { id })).fish;
  const cull = { decision: { disposition: 'CULLED', on: '2025-06-01', reason: 'bent spine' } };

  it('tells an act as one: who, what, which fish, and every change of it', async () => {
    const fish = await made('A-10', 'A-9');
    const done = await change(fish, cull);
    expect(done).toMatchObject({ what: 'culled on 2025-06-01: bent spine', fishCount: 2 });
    expect(done.fish.map(({ tag }) => tag)).toEqual(['A-9', 'A-10']);
    const told = await act(done.id);
    expect(told.history.map(({ action, actId }) => [action, actId])).toEqual(
      Array(2).fill(['decided, 2 fish in one act', done.id]),
    );
    expect(new Set(told.history.map(({ recordId }) => recordId))).toEqual(
      new Set(fish.map(({ id }) => id)),
    );
    expect(told).toMatchObject({ takenBackAt: null, inTheWay: [] });
    const { fishActs } = await api.graphql<{ fishActs: { edges: { node: Act }[] } }>(
      '{ fishActs { edges { node { id } } } }',
    );
    expect(fishActs.edges[0]?.node.id).toBe(done.id);
  });

  it('puts each fish back to its own state before, by one act that can be read', async () => {
    const fish = await made('B-1', 'B-2');
    const [first, second] = fish as [Fish, Fish];
    await change([first], { decision: { disposition: 'HOLD', on: '2025-03-01', reason: 'small' } });
    first.revision += 1;
    const before = await Promise.all(fish.map(state));
    const { id } = await change(fish, {
      decision: { disposition: 'PLACED', on: '2025-06-01', reason: null },
    });
    expect(await state(second)).toMatchObject({ disposition: 'PLACED', place: 'UNKNOWN' });
    expect((await takeBack(id)).data?.takeBackFishAct.takenBackBy).toBeTruthy();
    for (const [index, one] of fish.entries()) {
      const now = await state(one);
      const { revision, history, ...rest } = before[index] as Record<string, unknown>;
      expect(now).toMatchObject({ ...rest, revision: (revision as number) + 2 });
      expect(now['history']).toEqual([
        { action: 'taken back, 2 fish in one act', actId: id },
        { action: 'decided, 2 fish in one act', actId: id },
        ...(history as object[]),
      ]);
    }
    expect((await act(id)).history).toHaveLength(4);
    expect((await takeBack(id)).errors?.[0]?.message).toContain('taken back already');
    expect((await act(id)).inTheWay).toEqual([]);
  });

  it('brings withdrawn fish back', async () => {
    const fish = await made('C-1', 'C-2');
    const { id } = await change(fish, { withdrawal: { reason: 'entered twice' } });
    expect(await state(fish[0]!)).toMatchObject({ withdrawn: { reason: 'entered twice' } });
    await takeBack(id);
    expect(await state(fish[0]!)).toMatchObject({ withdrawn: null, tag: 'C-1', revision: 3 });
    const { fishList } = await api.graphql<{ fishList: { totalCount: number } }>(
      '{ fishList(filter: { text: "C-" }) { totalCount } }',
    );
    expect(fishList.totalCount).toBe(2);
  });

  it('takes none back when one was changed since, and names it with what was done', async () => {
    const fish = await made('D-1', 'D-2');
    const { id } = await change(fish, cull);
    await change([{ ...fish[1]!, revision: 2 }], {
      decision: { disposition: 'DIED', on: '2025-07-01' },
    });
    const why = expect.stringMatching(/changed since \(decided, 1 fish in one act, by /) as string;
    const inTheWay = [{ id: fish[1]!.id, tag: 'D-2', why }];
    expect((await act(id)).inTheWay).toEqual(inTheWay);
    const { errors } = await takeBack(id);
    expect(errors?.[0]?.message).toContain(
      'Nothing was changed: 1 of 2 fish stand in the way. D-2',
    );
    expect(errors?.[0]?.extensions).toMatchObject({ code: 'VALIDATION', fish: inTheWay });
    expect(await state(fish[0]!)).toMatchObject({ disposition: 'CULLED', revision: 2 });
    expect(await act(id)).toMatchObject({ takenBackAt: null });
  });

  it('does not put fish back into a line that was withdrawn since', async () => {
    const [old, next] = [await line('OLD'), await line('NEW')];
    const fish = await made('E-1');
    await change(fish, { line: { lineId: old.id } });
    fish[0]!.revision += 1;
    const { id, what } = await change(fish, { line: { lineId: next.id } });
    expect(what).toBe('moved to line NEW');
    await api.graphql('mutation ($input: WithdrawInput!) { withdrawLine(input: $input) { id } }', {
      input: { id: old.id, reason: 'no longer kept' },
    });
    expect((await takeBack(id)).errors?.[0]?.message).toContain('Its line OLD was withdrawn since');
    expect(await state(fish[0]!)).toMatchObject({ line: { code: 'NEW' } });
  });

  it('sent twice after a lost answer it is done once', async () => {
    const fish = await made('F-1', 'F-2');
    const id = crypto.randomUUID();
    const first = await change(fish, { id, ...cull });
    expect(await change(fish, { id, ...cull })).toEqual(first);
    expect(await state(fish[0]!)).toMatchObject({ revision: 2 });
  });

  it('an act that changes nothing is refused; of several only those that change are counted', async () => {
    const fish = await made('G-1', 'G-2');
    const { id } = await line('SAME');
    await change([fish[0]!], { line: { lineId: id } });
    fish[0]!.revision += 1;
    const nothing = await api.send(CHANGE, input([fish[0]!], { line: { lineId: id } }));
    expect(nothing.errors?.[0]?.message).toContain('Nothing would change');
    expect(await change(fish, { line: { lineId: id } })).toMatchObject({ fishCount: 1 });
  });

  it('a preview tells what would change and what stands in the way, and saves nothing', async () => {
    const fish = await made('H-1', 'H-2', 'H-3');
    await newRecords(api).createFish({ tag: 'H-4', sex: 'MALE', sireId: fish[2]!.id });
    const before = await Promise.all(fish.map(state));
    const { previewFishTogether } = await api.graphql<{ previewFishTogether: object }>(
      PREVIEW,
      input(fish, { withdrawal: { reason: 'mistake' } }),
    );
    const changes = [{ field: 'withdrawnReason', before: null, after: 'mistake' }];
    expect(previewFishTogether).toEqual({
      fish: [
        { id: fish[0]!.id, tag: 'H-1', changes },
        { id: fish[1]!.id, tag: 'H-2', changes },
      ],
      inTheWay: [
        { id: fish[2]!.id, tag: 'H-3', why: expect.stringContaining('is a parent') as string },
      ],
    });
    expect(await Promise.all(fish.map(state))).toEqual(before);
    const refused = await api.send(
      PREVIEW,
      input(fish, { decision: { disposition: 'CULLED', on: '2025-06-01' } }),
    );
    expect(refused.errors?.[0]?.message).toContain('why the fish is culled');
  });

  it('lists chosen fish by their ids, and tells how many of them fit a filter', async () => {
    const fish = await made('I-1', 'I-2');
    await change([fish[0]!], cull);
    const list = `query ($filter: FishFilter) { fishList(filter: $filter) { totalCount edges { node { tag } } } }`;
    const ids = fish.map(({ id }) => id);
    const ask = async (filter: object) =>
      (await api.graphql<{ fishList: { totalCount: number } }>(list, { filter })).fishList
        .totalCount;
    expect(await ask({ ids })).toBe(2);
    expect(await ask({ ids, dispositions: ['CULLED'] })).toBe(1);
    expect(await ask({ ids: [] })).toBe(0);
  });
});
