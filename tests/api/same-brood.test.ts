import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAgo } from '../clock.js';
import { creation, newRecords } from '../new-records.js';
import { type Records, recordsOn } from './carrier-records.js';
import { PASSWORD, type RunningApi, startApi } from './harness.js';

const CREATE = creation('createSpawn', 'id tag');
const FROM_PLAN =
  'mutation ($input: PairingSpawnInput!) { recordPairingSpawn(input: $input) { id tag } }';
const CORRECT = 'mutation ($input: CorrectSpawnInput!) { correctSpawn(input: $input) { id } }';

describe('a brood that is recorded already', () => {
  let api: RunningApi;
  let other: RunningApi;
  let records: Records;
  let pairs = 0;
  beforeAll(async () => {
    api = await startApi();
    other = await startApi({
      signedIn: false,
      environment: { DATABASE_URL: api.served.databaseUrl },
    });
    await other.graphql(`mutation { signIn(password: "${PASSWORD}") { __typename } }`);
    records = recordsOn(api);
  });
  afterAll(async () => {
    await other?.close();
    await api?.close();
  });

  const pair = async () => {
    pairs += 1;
    const [sireId, damId] = [
      await records.fish(`SB-${pairs}M`, 'MALE'),
      await records.fish(`SB-${pairs}F`, 'FEMALE'),
    ];
    return { sireId, damId };
  };
  const create = async (input: object, through = api): Promise<string> =>
    (await through.graphql<{ createSpawn: { id: string } }>(CREATE, { input })).createSpawn.id;
  const refused = async (query: string, input: object) => {
    const { errors } = await api.send(query, { input });
    if (errors?.[0] === undefined) throw new Error('nothing was refused');
    return errors[0];
  };

  it('is named when the same pair and day comes again, and taken when it is another one', async () => {
    const parents = await pair();
    const first = await create({ tag: 'SB-A', spawnedOn: daysAgo(9), ...parents });
    const again = { tag: 'SB-B', spawnedOn: daysAgo(9), ...parents };
    const error = await refused(CREATE, again);
    expect(error.extensions).toMatchObject({
      code: 'SPAWN_RECORDED',
      spawnId: first,
      tag: 'SB-A',
      fields: [{ field: 'confirmed', message: error.message }],
    });
    expect(error.message).toContain('SB-A');
    expect(error.message).toContain(daysAgo(9));
    await create({ ...again, confirmed: true });
    // Another day, the pair the other way round in another tank, and a pair of which one is not known.
    await create({ tag: 'SB-C', spawnedOn: daysAgo(8), ...parents });
    await create({ tag: 'SB-D', spawnedOn: daysAgo(9), sireId: parents.sireId });
    await create({ tag: 'SB-E', spawnedOn: daysAgo(9), sireId: parents.sireId });
  });

  it('is known by its hatch date as well, and without any day while it is under way', async () => {
    const hatched = await pair();
    await create({ tag: 'SB-H1', hatchDate: daysAgo(20), ...hatched });
    expect(
      (await refused(CREATE, { tag: 'SB-H2', hatchDate: daysAgo(20), ...hatched })).extensions.code,
    ).toBe('SPAWN_RECORDED');
    const setUp = await pair();
    const id = await create({ tag: 'SB-U1', ...setUp });
    expect((await refused(CREATE, { tag: 'SB-U2', ...setUp })).message).toContain('without a day');
    await newRecords(api).recordSpawnEvent({
      spawnId: id,
      kind: 'FAILED',
      at: `${daysAgo(1)}T10:00:00.000Z`,
    });
    await create({ tag: 'SB-U2', ...setUp });
  });

  it('is not in the way of the same record sent again, nor once it is withdrawn', async () => {
    const parents = await pair();
    const record = { id: randomUUID(), tag: 'SB-R', spawnedOn: daysAgo(4), ...parents };
    expect(await create(record)).toBe(record.id);
    expect(await create(record)).toBe(record.id);
    await api.graphql('mutation ($input: WithdrawInput!) { withdrawSpawn(input: $input) { id } }', {
      input: { id: record.id, revision: 1, reason: 'typed twice' },
    });
    await create({ ...record, id: randomUUID(), tag: 'SB-R2' });
  });

  it('is asked about from a plan, and when a correction makes two of one', async () => {
    const parents = await pair();
    const pairingId = await newRecords(api).planPairing({
      ...parents,
      plannedOn: daysAgo(6),
      confirmed: true,
    });
    const spawn = { pairingId, spawnedOn: daysAgo(5) };
    await api.graphql(FROM_PLAN, { input: { ...spawn, tag: 'SB-P1' } });
    expect((await refused(FROM_PLAN, { ...spawn, tag: 'SB-P2' })).extensions.code).toBe(
      'SPAWN_RECORDED',
    );
    await api.graphql(FROM_PLAN, { input: { ...spawn, tag: 'SB-P2', confirmed: true } });
    const id = await create({ tag: 'SB-P3', spawnedOn: daysAgo(4), ...parents });
    const change = { id, revision: 1, spawnedOn: daysAgo(5) };
    expect((await refused(CORRECT, change)).extensions.code).toBe('SPAWN_RECORDED');
    // A note of one of the two is mended without a question.
    await api.graphql(CORRECT, { input: { ...change, confirmed: true } });
    await api.graphql(CORRECT, { input: { id, revision: 2, note: 'second nest' } });
  });

  it('two processes that are sent it at once write it once', async () => {
    for (let round = 0; round < 8; round++) {
      const brood = { spawnedOn: daysAgo(3), ...(await pair()) };
      const answers = await Promise.allSettled([
        create({ tag: `SB-X${round}`, ...brood }),
        create({ tag: `SB-Y${round}`, ...brood }, other),
      ]);
      expect(answers.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected']);
    }
  });
});
