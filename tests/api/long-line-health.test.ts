import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newRecords } from '../new-records.js';
import { PASSWORD, type RunningApi, startApi, recordsOf } from './harness.js';
import { noteProgress, toldOf } from './told-progress.js';

const HEALTH = `query ($lineId: ID!) { lineHealth(lineId: $lineId) { fishCount inUseCount whyNone
  waiting { id state progress }
  figures { inbreeding { value inputs { name value } } meanKinship { value } completenessByGeneration
    generationInterval { value } byGeneration { generation count mean }
    sharesOverTime { founders { fish { tag } } generations { shares } }
    founders { fish { id tag hatchDate } contribution retention standardError }
    effective { founders { value } ancestors { value } genomesByRetention { value standardError }
      genomesByKinship { value } sizeFromInbreeding { value whyNone } sizeFromRate { value whyNone } }
    overContributors { sires { fish { tag } share } } rarestFounders { fish { tag } carriers { share } }
    kinship { fish { tag } meanKinship } } } }`;
const COMPUTATION = `query ($id: ID!) { computation(id: $id) { kind state progress errorCode } }`;

interface Waiting {
  id: string;
  state: string;
  progress: number;
}
interface Health {
  fishCount: number;
  inUseCount: number;
  whyNone: string | null;
  waiting: Waiting | null;
  figures: { kinship: unknown[]; inbreeding: { value: number } } | null;
}

const healthOf = async (api: RunningApi, lineId: string): Promise<Health> =>
  (await api.graphql<{ lineHealth: Health }>(HEALTH, { lineId })).lineHealth;

const stateOf = async (api: RunningApi, id: string) =>
  (await api.graphql<{ computation: Waiting & { kind: string } }>(COMPUTATION, { id })).computation;

const ended = async (api: RunningApi, id: string): Promise<{ state: string; seen: number[] }> => {
  const seen: number[] = [];
  const end = performance.now() + 200_000;
  for (;;) {
    const { state, progress } = await stateOf(api, id);
    seen.push(progress);
    if (state !== 'QUEUED' && state !== 'RUNNING') return { state, seen };
    if (performance.now() > end) throw new Error(`Waited in vain: ${state} ${progress}`);
    await new Promise((resolve) => setTimeout(resolve, 30));
  }
};

const joined = async (first: RunningApi, longFromFish: string): Promise<RunningApi> => {
  const api = await startApi({
    signedIn: false,
    environment: { LONG_FROM_FISH: longFromFish, DATABASE_URL: first.served.databaseUrl },
  });
  await api.graphql(`mutation ($password: String!) { signIn(password: $password) { signedIn } }`, {
    password: PASSWORD,
  });
  return api;
};

const newLine = (api: RunningApi, code: string): Promise<string> =>
  newRecords(api).createLine({ code, name: `Line ${code}` });

/** A line of many generations from 24 founders, 12 pairs a generation; every third young is kept. */
const fill = async (api: RunningApi, lineId: string, code: string, fish: number): Promise<void> => {
  const db = await recordsOf(api);
  const [person] = (await db.query('SELECT id FROM person')) as { id: string }[];
  const rows: {
    id: string;
    tag: string;
    spawn: string | null;
    born: string | null;
    kept: boolean;
  }[] = [];
  const spawns: { id: string; tag: string; sire: string; dam: string }[] = [];
  let pool = Array.from({ length: 24 }, (_, i) => {
    rows.push({ id: randomUUID(), tag: `${code}-F${i}`, spawn: null, born: null, kept: false });
    return rows.at(-1)?.id ?? '';
  });
  for (let generation = 1; rows.length < fish; generation++) {
    const next: string[] = [];
    for (let pair = 0; pair < 12; pair++) {
      const spawn = {
        id: randomUUID(),
        tag: `${code}-S${spawns.length}`,
        sire: pool[2 * pair] ?? '',
        dam: pool[(2 * pair + 2 * generation + 1) % 24] ?? '',
      };
      spawns.push(spawn);
      for (let i = 0; i < 40; i++) {
        const born = `20${10 + (generation % 15)}-03-01`;
        const young = {
          id: randomUUID(),
          tag: `${spawn.tag}-${i}`,
          spawn: spawn.id,
          born,
          kept: i % 3 === 0,
        };
        rows.push(young);
        if (i < 2) next.push(young.id);
      }
    }
    pool = next;
  }
  await db.transaction(async (m) => {
    await m.query(
      `INSERT INTO spawn (id, person_id, tag, sire_id, dam_id) SELECT id, $2, tag, sire, dam FROM jsonb_to_recordset($1::jsonb) AS s(id uuid, tag text, sire uuid, dam uuid)`,
      [JSON.stringify(spawns), person?.id],
    );
    await m.query(
      `INSERT INTO fish (id, person_id, swims_with_id, tag, sex, spawn_id, line_id, disposition, hatch_date)
       SELECT id, $2, CASE WHEN kept THEN $2::uuid END, tag, 'unsexed', spawn, $3,
         CASE WHEN kept THEN 'keeper' ELSE 'placed' END, born
       FROM jsonb_to_recordset($1::jsonb) AS f(id uuid, tag text, spawn uuid, born date, kept boolean)`,
      [JSON.stringify(rows), person?.id, lineId],
    );
  });
};

describe('the health of a line of many fish', () => {
  let api: RunningApi;
  let atOnce: RunningApi;
  let lineId: string;
  beforeAll(async () => {
    api = await startApi({ environment: { LONG_FROM_FISH: '100' } });
    lineId = await newLine(api, 'LL');
    await fill(api, lineId, 'LL', 2_400);
    // Another process on the same records that takes nothing for long.
    atOnce = await joined(api, '100000');
  });
  afterAll(async () => {
    await atOnce.close();
    await api.close();
  });

  it('is a long computation, whose figures are those of a request, and which both processes read', async () => {
    const first = await healthOf(api, lineId);
    expect(first).toMatchObject({ whyNone: null, figures: null });
    expect(first.inUseCount).toBeGreaterThan(800);
    const id = first.waiting?.id ?? '';
    expect((await stateOf(atOnce, id)).kind).toBe('line health');
    expect((await ended(atOnce, id)).state).toBe('DONE');
    const long = await healthOf(api, lineId);
    expect(long.waiting).toBeNull();
    const short = await healthOf(atOnce, lineId);
    expect(short.waiting).toBeNull();
    expect(short.figures?.kinship).toHaveLength(first.inUseCount);
    expect(short.figures?.inbreeding.value).toBeGreaterThan(0);
    expect(long).toEqual(short);
  });

  it('is worked out anew when a fish goes, and not taken from the state before', async () => {
    const db = await recordsOf(api);
    const decide = (disposition: string) =>
      db.query(
        `UPDATE fish SET disposition = $1, swims_with_id = CASE WHEN $1 = 'keeper' THEN person_id END WHERE tag = 'LL-S1-6'`,
        [disposition],
      );
    const before = await healthOf(api, lineId);
    await decide('placed');
    const waiting = await healthOf(api, lineId);
    expect(waiting.figures).toBeNull();
    expect(waiting.inUseCount).toBe(before.inUseCount - 1);
    expect((await ended(api, waiting.waiting?.id ?? '')).state).toBe('DONE');
    expect((await healthOf(api, lineId)).figures).toEqual((await healthOf(atOnce, lineId)).figures);
    await decide('keeper');
    const again = await healthOf(api, lineId);
    await ended(api, again.waiting?.id ?? '');
    expect(await healthOf(api, lineId)).toEqual(before);
  });

  it('one that was outdated when its turn came does not stand in the way', async () => {
    const db = await recordsOf(api);
    await db.query(`UPDATE computation SET state = 'outdated' WHERE kind = 'line health'`);
    const asked = await healthOf(api, lineId);
    expect(asked.waiting?.state).toBe('QUEUED');
    expect((await ended(api, asked.waiting?.id ?? '')).state).toBe('DONE');
  });

  it('has a map of one of each sex of every pair’s young, with figures as of the whole', async () => {
    const map = `query ($lineIds: [ID!], $fishIds: [ID!]) { relationshipMap(lineIds: $lineIds, fishIds: $fishIds) {
      inUseCount fish { standsFor fish { id tag } } coancestry } }`;
    interface Mapped {
      inUseCount: number;
      fish: { standsFor: number; fish: { id: string; tag: string } }[];
      coancestry: number[];
    }
    const read = async (variables: object): Promise<Mapped> =>
      (await api.graphql<{ relationshipMap: Mapped }>(map, variables)).relationshipMap;
    const { inUseCount, fish, coancestry } = await read({ lineIds: [lineId] });
    expect(inUseCount).toBe((await healthOf(atOnce, lineId)).inUseCount);
    expect(inUseCount).toBeGreaterThan(500);
    expect(fish.reduce((sum, one) => sum + one.standsFor, 0)).toBe(inUseCount);
    expect(fish.length).toBeLessThanOrEqual(500);
    // One of each of the spawns, unsexed all of them, and each of 14 young.
    expect(new Set(fish.map((one) => one.standsFor))).toEqual(new Set([14]));
    expect(new Set(fish.map((one) => one.fish.tag.replace(/-[^-]+$/, ''))).size).toBe(fish.length);
    const alone = await read({ fishIds: fish.map((one) => one.fish.id) });
    const sorted = (values: number[]) => values.map((x) => x.toFixed(9)).sort();
    expect(sorted(alone.coancestry)).toEqual(sorted(coancestry));
  });

  it('one that ends before it hears that it is to stop is stopped all the same', async () => {
    const db = await recordsOf(api);
    await db.query(`UPDATE computation SET state = 'outdated' WHERE kind = 'line health'`);
    // The stop is asked for between its beginning and its end, however short it is.
    await db.query(`
      CREATE FUNCTION stop_begun() RETURNS trigger LANGUAGE plpgsql AS $$
        BEGIN NEW.stop_asked = true; RETURN NEW; END $$;
      CREATE TRIGGER stop_begun BEFORE UPDATE ON computation FOR EACH ROW
        WHEN (OLD.state = 'queued' AND NEW.state = 'running') EXECUTE FUNCTION stop_begun()`);
    const id = (await healthOf(api, lineId)).waiting?.id ?? '';
    expect((await ended(api, id)).state).toBe('CANCELLED');
    await db.query('DROP FUNCTION stop_begun CASCADE');
    expect(await healthOf(api, lineId)).toMatchObject({ waiting: { id, state: 'CANCELLED' } });
  });

  it('a line without fish in use has nothing to wait for', async () => {
    const empty = await newLine(api, 'EE');
    expect(await healthOf(api, empty)).toMatchObject({ waiting: null, figures: null });
    expect((await healthOf(api, empty)).whyNone).toContain('No fish is recorded');
  });

  it('tells how far it is, is stopped from another process, stays stopped, and is begun again', async () => {
    const large = await newLine(api, 'XL');
    await fill(api, large, 'XL', 30_000);
    const { waiting } = await healthOf(api, large);
    const id = waiting?.id ?? '';
    await atOnce.graphql(`mutation ($id: ID!) { cancelComputation(id: $id) { id } }`, { id });
    expect((await ended(api, id)).state).toBe('CANCELLED');
    expect((await healthOf(api, large)).waiting).toMatchObject({ id, state: 'CANCELLED' });
    await noteProgress(api);
    const { restartComputation } = await api.graphql<{ restartComputation: Waiting }>(
      `mutation ($id: ID!) { restartComputation(id: $id) { id } }`,
      { id },
    );
    // It was asked again and again meanwhile: a process busy with the work itself would not have answered.
    const { state, seen } = await ended(api, restartComputation.id);
    expect(state).toBe('DONE');
    expect(seen.at(-1)).toBe(1);
    expect(seen).toEqual(seen.toSorted((a, b) => a - b));
    const told = await toldOf(api, restartComputation.id);
    expect(told.some((share) => share > 0 && share < 1)).toBe(true);
    expect(told).toEqual(told.toSorted((a, b) => a - b));
    expect((await healthOf(api, large)).figures?.kinship.length).toBeGreaterThan(10_000);
  });
});
