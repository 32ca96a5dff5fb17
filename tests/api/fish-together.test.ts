import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type RunningApi, startApi } from './harness.js';
import { creation, newRecords } from '../new-records.js';

interface Fish {
  id: string;
  tag: string;
  revision: number;
}
interface State extends Fish {
  disposition: string;
  place: string;
  line: { id: string } | null;
  withdrawn: { reason: string } | null;
}

const CHANGE = `mutation ($input: ChangeFishTogetherInput!) {
  changeFishTogether(input: $input) { id fishCount } }`;

describe('several fish changed in one act', () => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi();
  });
  afterAll(() => api.close());

  const made = async (...tags: string[]): Promise<Fish[]> => {
    const fish: Fish[] = [];
    for (const tag of tags) {
      const { createFish } = await api.graphql<{ createFish: Fish }>(
        creation('createFish', 'id tag revision'),
        { input: { tag, sex: 'MALE', hatchDate: '2025-01-01' } },
      );
      fish.push(createFish);
    }
    return fish;
  };
  const chosen = (fish: Fish[]) => fish.map(({ id, revision }) => ({ id, revision }));
  const change = (fish: Fish[], act: object) =>
    api.send<{ changeFishTogether: { id: string; fishCount: number } }>(CHANGE, {
      input: { fish: chosen(fish), ...act },
    });
  const states = (fish: Fish[]) =>
    Promise.all(
      fish.map(
        async ({ id }) =>
          (
            await api.graphql<{ fish: State }>(
              'query ($id: ID!) { fish(id: $id) { id tag revision disposition place line { id } withdrawn { reason } } }',
              { id },
            )
          ).fish,
      ),
    );

  it('moves all to a line, and the history of each says it was one act', async () => {
    const fish = await made('T-1', 'T-2');
    const lineId = await newRecords(api).createLine({ code: 'T', name: 'Together' });
    expect((await change(fish, { line: { lineId } })).errors).toBeUndefined();
    expect((await states(fish)).map((one) => one.line?.id)).toEqual([lineId, lineId]);
    for (const { id } of fish) {
      const { history } = await api.graphql<{
        history: { edges: { node: { action: string } }[] };
      }>(
        'query ($id: ID!) { history(recordKind: FISH, recordId: $id) { edges { node { action } } } }',
        { id },
      );
      expect(history.edges[0]?.node.action).toBe('corrected, 2 fish in one act');
    }
  });

  it('changes none when one stands in the way, and names it with the reason', async () => {
    const fish = await made('U-1', 'U-2', 'U-3');
    await change([fish[1]!], { decision: { disposition: 'HOLD', on: '2025-06-01' } });
    const { errors } = await change(fish, { withdrawal: { reason: 'entered twice' } });
    expect(errors?.[0]?.extensions).toMatchObject({
      code: 'VALIDATION',
      fish: [
        {
          id: fish[1]!.id,
          tag: 'U-2',
          why: expect.stringContaining('changed meanwhile') as string,
        },
      ],
    });
    expect((await states(fish)).map((one) => one.withdrawn)).toEqual([null, null, null]);
  });

  it('a parent is not withdrawn, nor any fish chosen with it', async () => {
    const [sire, other] = (await made('V-1', 'V-2')) as [Fish, Fish];
    await newRecords(api).createFish({ tag: 'V-3', sex: 'MALE', sireId: sire.id });
    const { errors } = await change([sire, other], { withdrawal: { reason: 'mistake' } });
    expect(errors?.[0]?.message).toContain('1 of 2 fish stand in the way. V-1: ');
    expect((await states([other]))[0]?.withdrawn).toBeNull();
    expect((await change([other], { withdrawal: { reason: 'mistake' } })).errors).toBeUndefined();
    expect((await states([other]))[0]?.withdrawn?.reason).toBe('mistake');
  });

  it('culling needs a reason; placing leaves each fish where a single decision would', async () => {
    const fish = await made('W-1', 'W-2');
    const cull = await change(fish, { decision: { disposition: 'CULLED', on: '2025-06-01' } });
    expect(cull.errors?.[0]?.message).toContain('why the fish is culled');
    await change(fish, { decision: { disposition: 'PLACED', on: '2025-06-01' } });
    expect(await states(fish)).toMatchObject([
      { disposition: 'PLACED', place: 'UNKNOWN', revision: 2 },
      { disposition: 'PLACED', place: 'UNKNOWN', revision: 2 },
    ]);
  });

  it('refuses none, one twice, two acts at once, and more than the limit', async () => {
    const [fish] = (await made('X-1')) as [Fish];
    const act = { line: { lineId: null } };
    const message = async (chosenFish: Fish[], acts: object) =>
      (await change(chosenFish, acts)).errors?.[0]?.message;
    expect(await message([], act)).toContain('at least one fish');
    expect(await message([fish, fish], act)).toContain('each once');
    expect(await message([fish], { ...act, withdrawal: { reason: 'a' } })).toContain('exactly one');
    const many = Array.from({ length: 201 }, () => fish);
    expect(await message(many, act)).toContain('give at most 200');
  });
});
