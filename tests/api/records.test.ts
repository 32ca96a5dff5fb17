import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type RunningApi, startApi } from './harness.js';
import { creation, newRecords } from '../new-records.js';

interface Made {
  id: string;
  tag: string;
  revision: number;
}

describe('records', () => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi();
  });
  afterAll(() => api.close());

  const fish = async (input: object): Promise<Made> =>
    (await api.graphql<{ createFish: Made }>(creation('createFish', 'id tag revision'), { input }))
      .createFish;
  const refused = async (
    query: string,
    variables: object,
  ): Promise<{ code: string; message: string }> => {
    const { errors } = await api.send(query, variables);
    const [error] = errors ?? [];
    if (error === undefined) throw new Error('It was not refused.');
    return { code: error.extensions.code, message: error.message };
  };
  const createFish = creation('createFish');

  it('a fish of known parents gets F, and the paths that make it', async () => {
    const grandSire = await fish({ tag: 'A-1', sex: 'MALE', hatchDate: '2023-01-01' });
    const grandDam = await fish({ tag: 'A-2', sex: 'FEMALE', hatchDate: '2023-01-01' });
    const parents = { sireId: grandSire.id, damId: grandDam.id, hatchDate: '2024-01-01' };
    const sire = await fish({ tag: 'A-3', sex: 'MALE', ...parents });
    const dam = await fish({ tag: 'A-4', sex: 'FEMALE', ...parents });
    const young = await fish({
      tag: 'A-5',
      sex: 'UNSEXED',
      sireId: sire.id,
      damId: dam.id,
      hatchDate: '2025-01-01',
    });
    const answer = await api.graphql<{
      fish: {
        inbreedingCoefficient: number;
        inbreeding: { paths: { contribution: number; sireSteps: number }[] };
      };
    }>(
      'query ($id: ID!) { fish(id: $id) { inbreedingCoefficient inbreeding { paths { contribution sireSteps ancestor { tag } } } } }',
      { id: young.id },
    );
    expect(answer.fish.inbreedingCoefficient).toBe(0.25);
    expect(answer.fish.inbreeding.paths.map((p) => p.contribution)).toEqual([0.125, 0.125]);
  });

  it('refuses impossible parents, and says which and why', async () => {
    const male = await fish({ tag: 'B-1', sex: 'MALE', hatchDate: '2025-01-01' });
    const asDam = await refused(createFish, { input: { tag: 'B-2', sex: 'MALE', damId: male.id } });
    expect(asDam).toMatchObject({ code: 'VALIDATION' });
    expect(asDam.message).toContain('B-1 is recorded as male');
    const younger = await refused(createFish, {
      input: { tag: 'B-3', sex: 'MALE', sireId: male.id, hatchDate: '2024-01-01' },
    });
    expect(younger.message).toContain('2025-01-01');
    const unknown = await refused(createFish, {
      input: { tag: 'B-4', sex: 'MALE', sireId: randomUUID() },
    });
    expect(unknown.message).toContain('no fish');
  });

  it('refuses a descendant as a parent', async () => {
    const old = await fish({ tag: 'C-1', sex: 'MALE' });
    const young = await fish({ tag: 'C-2', sex: 'MALE', sireId: old.id });
    const loop = await refused(
      'mutation ($input: CorrectFishInput!) { correctFish(input: $input) { id } }',
      {
        input: { id: old.id, revision: 1, sireId: young.id },
      },
    );
    expect(loop.message).toContain('own ancestor');
  });

  it('says of a text that is no id that it is none', async () => {
    const answer = await api.send('{ fish(id: "not-an-id") { id } }');
    expect(answer.errors?.[0]).toMatchObject({
      message: expect.stringContaining('"not-an-id" is not an id') as string,
      extensions: { code: 'VALIDATION' },
    });
  });

  it('refuses a spawning that is in the future', async () => {
    const answer = await api.send(creation('createSpawn'), {
      input: { tag: 'AHEAD-1', spawnedOn: '2999-01-01' },
    });
    expect(answer.errors?.[0]?.message).toContain('2999-01-01 is in the future');
  });

  it('refuses a tag twice, but takes the same record twice as one', async () => {
    const id = randomUUID();
    await fish({ id, tag: 'D-1', sex: 'MALE' });
    expect((await fish({ id, tag: 'D-1', sex: 'MALE' })).id).toBe(id);
    expect(await refused(createFish, { input: { tag: 'D-1', sex: 'FEMALE' } })).toMatchObject({
      code: 'TAG_TAKEN',
    });
  });

  it('young of one spawn are full sibs though nobody knows their parents, unless the brood was mixed', async () => {
    const spawnId = await newRecords(api).createSpawn({ tag: 'SHOP-1' });
    const [one] = await newRecords(api).addFishToSpawn({ spawnId, sex: 'MALE' });
    const [two] = await newRecords(api).addFishToSpawn({ spawnId, sex: 'FEMALE' });
    const coefficient = async (): Promise<number> => {
      const { plannedBrood } = await api.graphql<{
        plannedBrood: { inbreedingCoefficient: number };
      }>(
        'query ($one: ID!, $two: ID!) { plannedBrood(sireId: $one, damId: $two) { inbreedingCoefficient } }',
        { one, two },
      );
      return plannedBrood.inbreedingCoefficient;
    };
    // Full sibs of unrelated parents: Wright 1922, F of their brood 1/4.
    expect(await coefficient()).toBe(0.25);
    const mixed = (mixedOrigin: boolean, revision: number) =>
      api.graphql('mutation ($input: CorrectSpawnInput!) { correctSpawn(input: $input) { id } }', {
        input: { id: spawnId, revision, mixedOrigin },
      });
    await mixed(true, 1);
    expect(await coefficient()).toBe(0);
    await mixed(false, 2);
    expect(await coefficient()).toBe(0.25);
  });

  it('a correction on an old revision is a conflict, and history tells each change', async () => {
    const made = await fish({ tag: 'E-1', sex: 'UNSEXED' });
    const correct =
      'mutation ($input: CorrectFishInput!) { correctFish(input: $input) { revision } }';
    await api.graphql(correct, { input: { id: made.id, revision: 1, sex: 'MALE' } });
    expect(
      await refused(correct, { input: { id: made.id, revision: 1, sex: 'FEMALE' } }),
    ).toMatchObject({ code: 'CONFLICT_REVISION' });
    const { fish: read } = await api.graphql<{
      fish: {
        sex: string;
        history: { action: string; changes: { field: string; after: string }[] }[];
      };
    }>('query ($id: ID!) { fish(id: $id) { sex history { action changes { field after } } } }', {
      id: made.id,
    });
    expect(read.sex).toBe('MALE');
    expect(read.history.map((h) => h.action)).toEqual(['corrected', 'recorded']);
    expect(read.history[0]?.changes).toEqual([{ field: 'sex', after: 'male' }]);
  });

  it('finds fish and spawns by text in every order, a page at a time, marks of patterns taken as they stand', async () => {
    for (const [tag, hatchDate] of [
      ['FIND_1', '2025-02-01'],
      ['FIND_2', null],
      ['FIND-3', '2025-03-01'],
    ])
      await fish({ tag, sex: 'UNSEXED', ...(hatchDate !== null && { hatchDate }) });
    await newRecords(api).createSpawn({
      tag: 'S-sought',
      purpose: '50 % find_it',
      spawnedOn: '2025-01-01',
    });
    const { fields } = await api.graphql<{ fields: { enumValues: { name: string }[] } }>(
      '{ fields: __type(name: "FishSortField") { enumValues { name } } }',
    );
    const tagsOf = async (list: string, filter: string, field: string, direction: string) => {
      const tags: string[] = [];
      for (let after = ''; ;) {
        type Page = {
          edges: { node: { tag: string } }[];
          pageInfo: { hasNextPage: boolean; endCursor: string };
        };
        const { page } = await api.graphql<{ page: Page }>(
          `{ page: ${list}(filter: { text: "${filter}" }, sort: { field: ${field}, direction: ${direction} }, first: 1 ${after}) {
             edges { node { tag } } pageInfo { hasNextPage endCursor } } }`,
        );
        tags.push(...page.edges.map(({ node }) => node.tag));
        if (!page.pageInfo.hasNextPage) return tags;
        after = `, after: "${page.pageInfo.endCursor}"`;
      }
    };
    for (const { name } of fields.enumValues) {
      for (const direction of ['ASC', 'DESC'])
        expect((await tagsOf('fishList', 'find_', name, direction)).sort(), name).toEqual([
          'FIND_1',
          'FIND_2',
        ]);
    }
    expect(await tagsOf('fishList', 'find_', 'HATCH_DATE', 'DESC')).toEqual(['FIND_1', 'FIND_2']);
    expect(await tagsOf('fishList', 'find', 'TAG', 'DESC')).toHaveLength(3);
    for (const field of ['TAG', 'SPAWNED_ON'])
      expect(await tagsOf('spawnList', '0 % find_', field, 'DESC')).toEqual(['S-sought']);
  });

  it('a cull needs a reason; a withdrawn fish leaves the list and stays readable', async () => {
    const made = await fish({ tag: 'F-1', sex: 'MALE' });
    const decide =
      'mutation ($input: DecideFishInput!) { decideFish(input: $input) { disposition inUse } }';
    expect(
      (await refused(decide, { input: { id: made.id, disposition: 'CULLED', on: '2026-01-01' } }))
        .message,
    ).toContain('why');
    await api.graphql(decide, {
      input: { id: made.id, disposition: 'CULLED', on: '2026-01-01', reason: 'bent spine' },
    });
    await api.graphql('mutation ($input: WithdrawInput!) { withdrawFish(input: $input) { id } }', {
      input: { id: made.id, reason: 'entered twice' },
    });
    const { fishList } = await api.graphql<{ fishList: { totalCount: number } }>(
      '{ fishList(filter: {text: "F-1"}) { totalCount } }',
    );
    expect(fishList.totalCount).toBe(0);
    const { fish: read } = await api.graphql<{ fish: { withdrawn: { reason: string } } }>(
      'query ($id: ID!) { fish(id: $id) { withdrawn { reason } } }',
      { id: made.id },
    );
    expect(read.withdrawn.reason).toBe('entered twice');
  });

  it('plans a pairing, records its spawn, counts it, jars fish, scores and corrects a score', async () => {
    const sire = await fish({ tag: 'G-1', sex: 'MALE', hatchDate: '2025-01-01' });
    const dam = await fish({ tag: 'G-2', sex: 'FEMALE', hatchDate: '2025-01-01' });
    const { planPairing } = await api.graphql<{ planPairing: { id: string; state: string } }>(
      creation('planPairing', 'id state'),
      {
        input: { sireId: sire.id, damId: dam.id, plannedOn: '2025-09-01', reason: 'wider dorsal' },
      },
    );
    expect(planPairing.state).toBe('PLANNED');
    const { recordPairingSpawn: spawn } = await api.graphql<{
      recordPairingSpawn: { id: string; sire: { tag: string } };
    }>(
      'mutation ($input: PairingSpawnInput!) { recordPairingSpawn(input: $input) { id sire { tag } } }',
      { input: { pairingId: planPairing.id, tag: 'G25-01', spawnedOn: '2025-09-10' } },
    );
    expect(spawn.sire.tag).toBe('G-1');
    const half = await refused(creation('recordSpawnCount'), {
      input: { spawnId: spawn.id, stage: 'EGGS', countedOn: '2025-09-10', number: -1 },
    });
    expect(half.code).toBe('VALIDATION');
    await newRecords(api).recordSpawnEvent({
      spawnId: spawn.id,
      kind: 'HATCHED',
      at: '2025-09-12T08:00:00Z',
    });
    const { addFishToSpawn } = await api.graphql<{
      addFishToSpawn: { id: string; tag: string; hatchDate: string }[];
    }>(creation('addFishToSpawn', 'id tag hatchDate'), { input: { spawnId: spawn.id, number: 3 } });
    expect(addFishToSpawn.map((f) => f.tag)).toEqual(['G25-01-01', 'G25-01-02', 'G25-01-03']);
    expect(addFishToSpawn[0]?.hatchDate).toBe('2025-09-12');
    const traitId = await newRecords(api).createTrait({
      key: 'spread',
      name: 'Caudal spread',
      kind: 'MEASURED',
      unit: 'degrees',
      minimum: 0,
      maximum: 360,
    });
    const sheet = creation('recordScores', 'id value ageDays');
    const fishId = addFishToSpawn[0]?.id;
    expect(
      (
        await refused(sheet, {
          input: {
            fishId,
            scoredOn: '2026-01-10',
            scores: [{ traitId, value: 400 }],
          },
        })
      ).message,
    ).toContain('400');
    const { recordScores } = await api.graphql<{ recordScores: { id: string; ageDays: number }[] }>(
      sheet,
      {
        input: {
          fishId,
          scoredOn: '2026-01-10',
          scores: [{ traitId, value: 165 }],
        },
      },
    );
    expect(recordScores[0]?.ageDays).toBe(120);
    await api.graphql(
      'mutation ($input: CorrectScoreInput!) { correctScore(input: $input) { id } }',
      {
        input: { scoreId: recordScores[0]?.id, value: 170, reason: 'read from the wrong jar' },
      },
    );
    const { fish: read } = await api.graphql<{
      fish: { latestScores: { value: number }[]; scores: { value: number; corrected: boolean }[] };
    }>('query ($id: ID!) { fish(id: $id) { latestScores { value } scores { value corrected } } }', {
      id: fishId,
    });
    expect(read.latestScores).toEqual([{ value: 170 }]);
    expect(read.scores).toContainEqual({ value: 165, corrected: true });
  });

  it.each(['TAG', 'HATCH_DATE', 'CREATED_AT', 'LINE', 'DISPOSITION'])(
    'pages through a list sorted by %s without losing or repeating a fish',
    async (field) => {
      interface Page {
        fishList: {
          edges: { node: { tag: string } }[];
          pageInfo: { hasNextPage: boolean; endCursor: string };
          totalCount: number;
        };
      }
      const query = `query ($after: String) {
        fishList(first: 3, after: $after, sort: { field: ${field}, direction: DESC }) {
          edges { node { tag } } pageInfo { hasNextPage endCursor } totalCount
        }
      }`;
      const seen: string[] = [];
      let after: string | null = null;
      let total: number;
      do {
        const { fishList }: Page = await api.graphql<Page>(query, { after });
        seen.push(...fishList.edges.map((edge) => edge.node.tag));
        total = fishList.totalCount;
        after = fishList.pageInfo.hasNextPage ? fishList.pageInfo.endCursor : null;
      } while (after !== null);
      expect(new Set(seen).size).toBe(seen.length);
      expect(seen.length).toBe(total);
    },
  );
});

describe('the demo scenario', () => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi({ demo: true });
  });
  afterAll(() => api.close());

  it('offers pairs with reasons, draws a planned brood and suggests outcrosses', async () => {
    const { pairingCandidates, lines } = await api.graphql<{
      lines: { id: string; fishCount: number }[];
      pairingCandidates: {
        totalCount: number;
        edges: {
          node: {
            sire: { id: string };
            dam: { id: string };
            inbreedingCoefficient: number;
            reasons: unknown[];
          };
        }[];
      };
    }>(
      '{ lines { id fishCount } pairingCandidates(input: {}, sort: INBREEDING, direction: DESC, first: 5) { totalCount edges { node { sire { id } dam { id } inbreedingCoefficient reasons { text } } } } }',
    );
    expect(lines).toHaveLength(3);
    expect(lines.reduce((sum, line) => sum + line.fishCount, 0)).toBeGreaterThanOrEqual(400);
    const worst = pairingCandidates.edges[0]?.node;
    expect(worst?.reasons.length).toBeGreaterThan(0);
    const { plannedBrood: brood } = await api.graphql<{
      plannedBrood: {
        inbreedingCoefficient: number;
        inbreeding: { coefficient: number; complete: boolean; paths: { contribution: number }[] };
        slice: { fish: { id: string }[] };
      };
    }>(
      'query ($s: ID!, $d: ID!) { plannedBrood(sireId: $s, damId: $d) { inbreedingCoefficient inbreeding { coefficient complete paths { contribution } } slice { fish { id } } } }',
      { s: worst?.sire.id, d: worst?.dam.id },
    );
    expect(brood.inbreedingCoefficient).toBeCloseTo(worst?.inbreedingCoefficient ?? -1, 12);
    expect(brood.inbreeding.coefficient).toBeCloseTo(brood.inbreedingCoefficient, 12);
    expect(brood.slice.fish.some((f) => f.id === 'planned')).toBe(true);
    const { outcrosses } = await api.graphql<{
      outcrosses: { meanCoancestry: number; reasons: unknown[] }[];
    }>(
      'query ($id: ID!) { outcrosses(input: {lineId: $id, first: 5}) { meanCoancestry reasons { text } } }',
      { id: lines[0]?.id },
    );
    expect(outcrosses.length).toBeGreaterThan(0);
  });

  it('clears on request, and leaves an empty install', async () => {
    await api.graphql('mutation { clearDemo(confirm: "clear the demo") { setUpNeeded } }');
    const { session } = await api.graphql<{
      session: { setUpNeeded: boolean; demoOffered: boolean };
    }>('{ session { setUpNeeded demoOffered } }');
    expect(session).toEqual({ setUpNeeded: true, demoOffered: true });
  });
});
