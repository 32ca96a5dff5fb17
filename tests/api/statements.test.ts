import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { recordsOn } from './carrier-records.js';
import { type RunningApi, startApi } from './harness.js';
import { listenToStatements, type SentStatements } from './sent-statements.js';

const FISH = `query ($first: Int!) { fishList(first: $first) { edges { node {
  id tag inbreedingCoefficient inbreedingBasis completeGenerationEquivalents
  line { code } spawn { tag } sire { tag inbreedingCoefficient } dam { tag } latestScores { value } offspringCount
} } } }`;

const revision = /SELECT pedigree_revision/;

describe('statements of one request', () => {
  let api: RunningApi;
  let statements: SentStatements;

  beforeAll(async () => {
    api = await startApi({ demo: true });
    statements = await listenToStatements(api);
  }, 120_000);

  afterAll(async () => {
    statements.stop();
    await api.close();
  });

  it('ask for the revision of the pedigree once, however many fish are listed', async () => {
    await statements.of(FISH, { first: 50 });
    const few = await statements.of(FISH, { first: 5 });
    const many = await statements.of(FISH, { first: 50 });
    expect(many.filter((sql) => revision.test(sql))).toHaveLength(1);
    expect(many.length).toBe(few.length);
  });

  it('read for an outcross no past pairings, and scores only where one is asked for', async () => {
    const { lines } = await api.graphql<{ lines: { id: string; code: string }[] }>(
      '{ lines { id code } }',
    );
    const { traits } = await api.graphql<{ traits: { id: string }[] }>('{ traits { id } }');
    const lineId = lines.find(({ code }) => code === 'RB')!.id;
    const asked = 'query ($input: OutcrossInput!) { outcrosses(input: $input) { meanCoancestry } }';
    const plain = await statements.of(asked, { input: { lineId } });
    const minimumTraits = [{ traitId: traits[0]!.id, minimum: 1 }];
    const scored = await statements.of(asked, { input: { lineId, minimumTraits } });
    const past = /failed_reason AS reason/;
    const scores = /FROM "score"/;
    expect([plain, scored].map((all) => all.some((sql) => past.test(sql)))).toEqual([false, false]);
    expect([plain, scored].map((all) => all.some((sql) => scores.test(sql)))).toEqual([
      false,
      true,
    ]);
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
