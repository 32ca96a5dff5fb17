import type { DataSource } from 'typeorm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newRecords } from '../new-records.js';
import { type Records, recordsOn } from './carrier-records.js';
import { type RunningApi, startApi, recordsOf } from './harness.js';

interface Page {
  edges: { cursor: string; node: { id: string } }[];
  pageInfo: { hasNextPage: boolean; endCursor: string | null };
  totalCount: number;
}

/** More rows than any of these lists ever sent at once. */
const MANY = 630;

/** Lists that grow without end, each with the statement that fills it with MANY rows; $1 is the person, $2 a fish. */
const growing = {
  history: {
    field: 'history(recordKind: FISH, recordId: $fish, first: 200, after: $after)',
    variables: '$fish: ID!, ',
    fill: `INSERT INTO record_history (record_kind, record_id, revision, by_name, action, changes)
      SELECT 'fish', $2::uuid, 1 + i, 'Test keeper', 'corrected', '{}' FROM generate_series(1, ${MANY} - 1) i WHERE $1::uuid IS NOT NULL`,
  },
  waterReadings: {
    field: 'waterReadings(vessel: "Sump", first: 200, after: $after)',
    variables: '',
    fill: `WITH v AS (INSERT INTO vessel (id, person_id, code, kind) VALUES (gen_random_uuid(), $1::uuid, 'Sump', 'other') RETURNING id)
      INSERT INTO water_reading (id, person_id, vessel_id, taken_at, ph, revision)
      SELECT gen_random_uuid(), $1::uuid, v.id, now() - (i / 3) * interval '1 hour', 7, 1 FROM v, generate_series(1, ${MANY}) i WHERE $2::uuid IS NOT NULL`,
  },
  vesselStays: {
    field: 'vesselStays(fishId: $fish, first: 200, after: $after)',
    variables: '$fish: ID!, ',
    fill: `INSERT INTO vessel_stay (id, vessel_id, fish_id, came_at, left_at, by_name)
      SELECT gen_random_uuid(), v.id, $2::uuid, now() - (i / 3) * interval '1 hour', now(), 'Test keeper'
      FROM vessel v, generate_series(1, ${MANY}) i WHERE v.person_id = $1::uuid`,
  },
  vessels: {
    // The one vessel of the readings among them.
    field: 'vessels(first: 200, after: $after)',
    variables: '',
    fill: `INSERT INTO vessel (id, person_id, code, kind, rack, shelf, position)
      SELECT gen_random_uuid(), $1::uuid, 'J' || i, 'jar', CASE WHEN i % 2 = 0 THEN 'R' || i % 3 END, i % 4, i / 9
      FROM generate_series(2, ${MANY}) i WHERE $2::uuid IS NOT NULL`,
  },
  pastImports: {
    field: 'pastImports(first: 200, after: $after)',
    variables: '',
    fill: `INSERT INTO past_import (id, person_id, by_name, at, counts)
      SELECT gen_random_uuid(), $1::uuid, 'Test keeper', now() - (i / 3) * interval '1 hour',
        '{"fish": 1, "spawns": 0, "lines": 0, "scores": 0, "traits": 0}' FROM generate_series(1, ${MANY}) i WHERE $2::uuid IS NOT NULL`,
  },
  fishActs: {
    field: 'fishActs(first: 200, after: $after)',
    variables: '',
    fill: `INSERT INTO fish_act (id, person_id, what, fish_count, by_name, at)
      SELECT gen_random_uuid(), $1::uuid, 'put on hold', 2, 'Test keeper', now() - (i / 3) * interval '1 hour'
      FROM generate_series(1, ${MANY}) i WHERE $2::uuid IS NOT NULL`,
  },
  computations: {
    field: 'computations(first: 200, after: $after)',
    variables: '',
    fill: `INSERT INTO computation (id, kind, subject, evidence, state, asked_by, created_at, ended_at)
      SELECT gen_random_uuid(), 'import', r.id::text, '', 'cancelled', 'Test keeper', r.created_at, now() FROM import_run r
      WHERE r.person_id = $1::uuid AND $2::uuid IS NOT NULL`,
  },
  importRuns: {
    field: 'importRuns(first: 200, after: $after)',
    variables: '',
    fill: `INSERT INTO import_run (id, person_id, purpose, file_name, columns, created_at)
      SELECT gen_random_uuid(), $1::uuid, 'take', 'f' || i || '.csv', '[]', now() - (i / 3) * interval '1 minute'
      FROM generate_series(1, ${MANY}) i WHERE $2::uuid IS NOT NULL`,
  },
} as const;

describe('lists that grow without end', () => {
  let api: RunningApi;
  let fish: string;
  beforeAll(async () => {
    api = await startApi();
    const db = await recordsOf(api);
    fish = await recordsOn(api).fish('A-1', 'MALE');
    const [person] = (await db.query('SELECT id FROM person')) as { id: string }[];
    for (const kind of [
      'history',
      'waterReadings',
      'vesselStays',
      'vessels',
      'pastImports',
      'fishActs',
      'importRuns',
      'computations',
    ])
      await db.query(growing[kind as keyof typeof growing].fill, [person?.id, fish]);
  }, 120_000);
  afterAll(() => api.close());

  it.each(Object.entries(growing))(
    '%s: says how many there are, and page by page gives each of them once',
    async (name, { field, variables }) => {
      const ids: string[] = [];
      let after: string | null = null;
      do {
        const data: Record<string, Page> = await api.graphql(
          `query (${variables}$after: String) { ${field} {
             edges { cursor node { id } } pageInfo { hasNextPage endCursor } totalCount } }`,
          { fish, after },
        );
        const page = data[name]!;
        expect(page.totalCount).toBe(MANY);
        expect(page.edges.length).toBeGreaterThan(0);
        ids.push(...page.edges.map(({ node }) => node.id));
        after = page.pageInfo.hasNextPage ? page.pageInfo.endCursor : null;
      } while (after !== null);
      expect(ids).toHaveLength(MANY);
      expect(new Set(ids).size).toBe(MANY);
    },
  );

  it('a history that is read beside its fish is refused rather than cut short', async () => {
    const { errors } = await api.send('query ($fish: ID!) { fish(id: $fish) { history { id } } }', {
      fish,
    });
    expect(errors?.[0]?.extensions.code).toBe('HISTORY_LONG');
    expect(errors?.[0]?.message).toContain('page by page');
  });

  it('a cursor of another list is refused in words', async () => {
    const { errors } = await api.send(
      'query ($fish: ID!) { history(recordKind: FISH, recordId: $fish, after: "WyJ4IiwieSJd") { totalCount } }',
      { fish },
    );
    expect(errors?.[0]?.extensions.code).toBe('CURSOR_INVALID');
  });
});

describe('lists of the largest parts say how many others there are', () => {
  let api: RunningApi;
  let records: Records;
  let db: DataSource;
  beforeAll(async () => {
    api = await startApi();
    records = recordsOn(api);
    db = await recordsOf(api);
  });
  afterAll(() => api.close());

  /** Sib matings over so many generations; the last young. */
  const inbred = async (generations: number): Promise<string> => {
    let [sire, dam] = [await records.fish('S-0', 'MALE'), await records.fish('D-0', 'FEMALE')];
    for (let g = 1; g <= generations; g++) {
      const spawnId = await records.spawn(`SP-${g}`, sire, dam);
      [sire, dam] = [
        await records.fish(`S-${g}`, 'MALE', { spawnId }),
        await records.fish(`D-${g}`, 'FEMALE', { spawnId }),
      ];
    }
    return sire;
  };

  it('common ancestors behind an F, and ancestors in which it arose', async () => {
    const young = await inbred(5);
    interface Explained {
      inbreeding: {
        coefficient: number;
        byAncestor: { contribution: number }[];
        ancestorCount: number;
      };
      inbreedingSources: { byOrigin: { contribution: number }[]; originCount: number };
    }
    const query = (limit: number) => `query ($id: ID!) { fish(id: $id) {
      inbreeding(limit: ${limit}) { coefficient byAncestor { contribution } ancestorCount }
      inbreedingSources { byOrigin { contribution } originCount } } }`;
    const read = async (limit: number) =>
      (await api.graphql<{ fish: Explained }>(query(limit), { id: young })).fish;
    const all = await read(400);
    const some = await read(3);
    expect(some.inbreeding.byAncestor).toHaveLength(3);
    expect(some.inbreeding.ancestorCount).toBe(all.inbreeding.byAncestor.length);
    expect(some.inbreeding.ancestorCount).toBeGreaterThan(3);
    expect(all.inbreedingSources.originCount).toBe(all.inbreedingSources.byOrigin.length);
    const sum = all.inbreeding.byAncestor.reduce((total, one) => total + one.contribution, 0);
    expect(sum).toBeCloseTo(all.inbreeding.coefficient, 9);
  }, 60_000);

  it('records of relatives, of which the nearest are tried', async () => {
    const [sire, dam] = [await records.fish('R-S', 'MALE'), await records.fish('R-D', 'FEMALE')];
    const young = await records.young(await records.spawn('R', sire, dam), 30);
    for (const { id } of young) await records.seen(id, 'dt', 'single tail');
    const { carrierReasons } = await api.graphql<{
      carrierReasons: { tried: number; nearCount: number };
    }>('query ($id: ID!) { carrierReasons(fishId: $id, locusId: "dt") { tried nearCount } }', {
      id: sire,
    });
    expect(carrierReasons).toEqual({ tried: 24, nearCount: 30 });
  }, 60_000);

  it('contradictions of a locus, of which six are searched for at a time', async () => {
    const read = async () =>
      (
        await api.graphql<{ contradictions: { found: object[]; moreAt: string[] } }>(
          '{ contradictions { found { locusId } moreAt } }',
        )
      ).contradictions;
    for (let k = 1; k <= 7; k++) {
      const [sire, dam] = [
        await records.fish(`C-S${k}`, 'MALE'),
        await records.fish(`C-D${k}`, 'FEMALE'),
      ];
      const [young] = await records.young(await records.spawn(`C${k}`, sire, dam), 1);
      for (const id of [sire, dam]) await records.seen(id, 'dt', 'double tail');
      await records.seen(young!.id, 'dt', 'single tail');
      if (k === 5) expect((await read()).moreAt).toEqual([]);
    }
    const { found, moreAt } = await read();
    expect(found).toHaveLength(6);
    expect(moreAt).toHaveLength(1);
  }, 120_000);

  it('earlier spawns that a brood is compared with', async () => {
    const [sire, dam] = [await records.fish('V-S', 'MALE'), await records.fish('V-D', 'FEMALE')];
    const spawn = await records.spawn('V', sire, dam, { spawnedOn: '2025-06-01' });
    await newRecords(api).recordSpawnCount({
      spawnId: spawn,
      stage: 'HATCHED',
      number: 50,
      countedOn: '2025-06-03',
    });
    await db.query(
      `INSERT INTO spawn (id, person_id, tag, sire_id, dam_id, spawned_on, revision)
       SELECT gen_random_uuid(), s.person_id, 'V-' || i, s.sire_id, s.dam_id, DATE '2024-01-01' + i, 1
       FROM spawn s, generate_series(1, 203) i WHERE s.id = $1`,
      [spawn],
    );
    const { spawnSurvival } = await api.graphql<{
      spawnSurvival: { pastSpawnsPassedOver: number };
    }>('query ($id: ID!) { spawnSurvival(spawnId: $id) { pastSpawnsPassedOver } }', { id: spawn });
    expect(spawnSurvival.pastSpawnsPassedOver).toBe(3);
  });

  it('backups that were made', async () => {
    await db.query(
      `INSERT INTO backup_run (id, kind, state, folder, file_name, started_at)
       SELECT gen_random_uuid(), 'asked', 'done', '/nowhere', 'b.zip', now() - i * interval '1 day' FROM generate_series(1, 15) i`,
    );
    // The one of the day may be made just now.
    const made = async (): Promise<number> =>
      (
        (await db.query(`SELECT count(*)::int AS made FROM backup_run WHERE state = 'done'`)) as {
          made: number;
        }[]
      )[0]!.made;
    const before = await made();
    const { backupState } = await api.graphql<{
      backupState: { backups: object[]; madeCount: number };
    }>('{ backupState { backups { id } madeCount } }');
    expect(backupState.backups).toHaveLength(12);
    expect(before).toBeGreaterThanOrEqual(15);
    expect([before, await made()]).toContain(backupState.madeCount);
  });

  it('a map of a line with too many fish asks to decide on them, and not to choose a line', async () => {
    const rows = Array.from(
      { length: 501 },
      (_, i) => `M-${i},${i % 2 === 0 ? 'male' : 'female'},BIG`,
    );
    await api.graphql(
      `mutation ($text: String!) { confirmImport(fileName: "m.csv", text: $text, columns: []) { fish } }`,
      { text: ['tag,sex,line', ...rows].join('\n') },
    );
    await db.query(`UPDATE fish SET disposition = 'keeper' WHERE tag LIKE 'M-%'`);
    const { lines } = await api.graphql<{ lines: { id: string; code: string }[] }>(
      '{ lines { id code } }',
    );
    const refused = async (lineIds: string[] | null) =>
      (
        await api.send(
          'query ($lineIds: [ID!]) { relationshipMap(lineIds: $lineIds) { inUseCount } }',
          { lineIds },
        )
      ).errors?.[0]?.message;
    const big = lines.find(({ code }) => code === 'BIG')!.id;
    expect(await refused([big])).toMatch(/^501 fish are in use, and a map takes 500.*Decide which/);
    expect(await refused(null)).toContain('Choose one line.');
  });

  it('partners for an outcross are asked for in a number that is kept or refused', async () => {
    const line = await records.line('OUT');
    const { errors } = await api.send(
      'query ($input: OutcrossInput!) { outcrosses(input: $input) { meanCoancestry } }',
      { input: { lineId: line, first: 101 } },
    );
    expect(errors?.[0]?.message).toContain('from 1 to 100');
  });
});
