import { DataSource } from 'typeorm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { currentActor } from '../../apps/api/src/access/acting.js';
import { recordsOn } from './carrier-records.js';
import { type RunningApi, startApi } from './harness.js';

const FISH = `query ($first: Int!) { fishList(first: $first) { edges { node {
  id tag inbreedingCoefficient inbreedingBasis completeGenerationEquivalents
  line { code } spawn { tag } sire { tag inbreedingCoefficient } dam { tag } latestScores { value } offspringCount
} } } }`;

/** Whether the server asks of its own accord, as for the backup of the day that may begin at any moment. */
const ofTheServer = (): boolean => {
  try {
    const actor = currentActor();
    return actor.kind === 'system' && actor.purpose === 'backup';
  } catch {
    return false;
  }
};

const revision = /SELECT pedigree_revision/;

describe('statements of one request', () => {
  let api: RunningApi;
  const sent: string[] = [];
  let putBack = () => {};

  beforeAll(async () => {
    api = await startApi({ demo: true });
    const runner = api.served.app.get(DataSource, { strict: false }).createQueryRunner();
    const target = Object.getPrototypeOf(runner) as typeof runner;
    const query = Reflect.get(target, 'query') as (...given: unknown[]) => Promise<unknown>;
    Reflect.set(target, 'query', function (this: object, ...given: unknown[]) {
      if (!ofTheServer()) sent.push(String(given[0]));
      return query.apply(this, given);
    });
    putBack = () => void Reflect.set(target, 'query', query);
    await runner.release();
  }, 120_000);

  afterAll(async () => {
    putBack();
    await api.close();
  });

  const statementsOf = async (query: string, variables: object): Promise<string[]> => {
    sent.length = 0;
    await api.graphql(query, variables);
    return [...sent];
  };

  it('ask for the revision of the pedigree once, however many fish are listed', async () => {
    await statementsOf(FISH, { first: 50 });
    const few = await statementsOf(FISH, { first: 5 });
    const many = await statementsOf(FISH, { first: 50 });
    expect(many.filter((sql) => revision.test(sql))).toHaveLength(1);
    expect(many.length).toBe(few.length);
  });

  it('see what changed between two requests, and what the same request changed', async () => {
    const records = recordsOn(api);
    const grandparents = await records.spawn(
      'G-S0001',
      await records.fish('G-1', 'MALE'),
      await records.fish('G-2', 'FEMALE'),
    );
    const sireId = await records.fish('P-1', 'MALE', { spawnId: grandparents });
    const damId = await records.fish('P-2', 'FEMALE', { spawnId: grandparents });
    const young = await records.fish('Y-1', 'FEMALE');
    const inbreeding = async (): Promise<unknown> =>
      api.graphql('query ($id: ID!) { fish(id: $id) { inbreedingCoefficient } }', { id: young });
    expect(await inbreeding()).toEqual({ fish: { inbreedingCoefficient: 0 } });
    const spawnId = await records.spawn('P-S0001', sireId, damId);
    const corrected = await api.graphql(
      `mutation ($input: CorrectFishInput!) { correctFish(input: $input) { inbreedingCoefficient } }`,
      { input: { id: young, revision: 1, spawnId } },
    );
    expect(corrected).toEqual({ correctFish: { inbreedingCoefficient: 0.25 } });
    expect(await inbreeding()).toEqual({ fish: { inbreedingCoefficient: 0.25 } });
  });
});
