import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAgo, today } from '../clock.js';
import { newRecords } from '../new-records.js';
import { type RunningApi, startApi } from './harness.js';

const LEARN = `mutation ($input: LessonInput!) { sayWhatWasLearnt(input: $input) { revision learnt } }`;
const VERSION = `query ($lineId: ID!, $version: Int!) { linePurpose(lineId: $lineId, version: $version) { version by content { broods } } }`;

describe('what was learnt from a round', () => {
  let api: RunningApi;
  let lineId = '';
  let round: { id: string; revision: number };
  const learn = (revision: number, learnt: string | null) =>
    api.send<{ sayWhatWasLearnt: { revision: number; learnt: string | null } }>(LEARN, {
      input: { id: round.id, revision, learnt },
    });

  beforeAll(async () => {
    api = await startApi();
    const records = newRecords(api);
    lineId = await records.createLine({ code: 'L', name: 'Learning' });
    const fish = (tag: string, sex: 'MALE' | 'FEMALE') =>
      records.createFish({ tag, sex, lineId, hatchDate: daysAgo(200) });
    const [sireId, damId] = [await fish('L-1', 'MALE'), await fish('L-2', 'FEMALE')];
    const { adoptRound } = await api.graphql<{ adoptRound: typeof round }>(
      'mutation ($input: AdoptRoundInput!) { adoptRound(input: $input) { id revision } }',
      {
        input: {
          ...{ lineId, expectedPurposeVersion: 0, plannedOn: today() },
          pairs: [{ sireId, damId }],
        },
      },
    );
    round = adoptRound;
  });
  afterAll(() => api.close());

  it('is kept with the round, changed and cleared', async () => {
    const first = await learn(round.revision, '  Cold water, few eggs.  ');
    expect(first.data?.sayWhatWasLearnt.learnt).toBe('Cold water, few eggs.');
    const { revision } = first.data!.sayWhatWasLearnt;
    expect(revision).toBe(round.revision + 1);
    const kept = await api.graphql<{ round: { learnt: string | null } }>(
      'query ($id: ID!) { round(id: $id) { learnt } }',
      { id: round.id },
    );
    expect(kept.round.learnt).toBe('Cold water, few eggs.');
    const stale = await learn(round.revision, 'Something else.');
    expect(stale.errors?.[0]?.extensions.code).toBe('CONFLICT_REVISION');
    expect((await learn(revision, ' ')).data?.sayWhatWasLearnt.learnt).toBeNull();
  });

  it('is told where there is no such round', async () => {
    const { errors } = await api.send(LEARN, {
      input: { id: randomUUID(), revision: 1, learnt: 'x' },
    });
    expect(errors?.[0]?.extensions.code).toBe('NOT_FOUND');
  });

  it('can be read beside the version that the round was made for', async () => {
    const of = (version: number) =>
      api.send<{ linePurpose: { version: number; by: string | null } }>(VERSION, {
        ...{ lineId, version },
      });
    expect((await of(0)).data?.linePurpose).toMatchObject({ version: 0, by: null });
    expect((await of(1)).errors?.[0]?.extensions.code).toBe('NOT_FOUND');
  });
});
