import { type ChildProcess, spawn } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { chmodSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { normals } from '@linewright/merit';
import { seededChance } from '@linewright/pedigree';
import pg from 'pg';
import { DataSource } from 'typeorm';
import 'reflect-metadata';
import { readConfig } from '../../apps/api/src/config/config.js';
import { dataSourceOptions } from '../../apps/api/src/stock/data-source.js';
import { openDatabase } from '../../apps/api/src/stock/open-database.js';
import { newRecords } from '../new-records.js';
import { bigSpawns, type ParentArrays } from './pedigree-shapes.js';

const SEED = 20_261_126;
const FISH = 10_000;
const ROUNDS = 5;
/** The built server; the bench runs from the root of the repository, after a build. */
const SERVER = 'apps/api/dist/main.js';

const TRAIT = `query ($id: ID!) { traitMerit(traitId: $id) { waiting { state progress } scoresTakenInSince
  result { linear { heritability { mean } } } } rankedFish(traitId: $id, inUse: false, first: 20) { edges { node { value fish { tag } } } } }`;
const WAITED = `query ($id: ID!) { traitMerit(traitId: $id) { waiting { state progress } scoresTakenInSince } }`;

interface Told {
  readonly traitMerit: {
    readonly waiting: object | null;
    readonly scoresTakenInSince: number | null;
  };
}
type Ask = <Data>(query: string, variables?: object) => Promise<Data>;

/**
 * `npm run bench -- one-score`: a keeper of 10,000 fish records a score. How long until the server has it, and from then until the trait's
 * page and its ranking have values that hold it, over HTTP on a real database.
 */
export async function run(emit: (line: object) => void): Promise<void> {
  const dataDir = mkdtempSync(join(tmpdir(), 'linewright-bench-'));
  chmodSync(dataDir, 0o755);
  const database = await openDatabase(readConfig({ DATA_DIR: dataDir }));
  const owner = new DataSource({ ...dataSourceOptions(database.ownerUrl), driver: pg });
  let server: ChildProcess | undefined;
  try {
    await owner.initialize();
    server = spawn(process.execPath, [SERVER], {
      env: { ...process.env, PORT: '0', DATABASE_URL: database.ownerUrl, DATA_DIR: dataDir },
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    const ask = await signedIn(await addressOf(server));
    const { traitId, unscored } = await filled(owner, ask);
    emit({ what: 'all worked out', fish: FISH, seed: SEED, ms: await untilDone(ask, traitId) });
    // The solution is made ready in the background once an answer was shown.
    await ask(TRAIT, { id: traitId });
    await new Promise((done) => setTimeout(done, 3000));
    for (let round = 0; round < ROUNDS; round++)
      emit({ fish: FISH, round, ...(await oneScore(ask, traitId, unscored[round]!)) });
  } finally {
    server?.kill('SIGINT');
    await owner.destroy();
    await database.close();
    rmSync(dataDir, { recursive: true, force: true });
  }
}

async function oneScore(ask: Ask, traitId: string, fishId: string): Promise<object> {
  const started = performance.now();
  await newRecords({ graphql: ask }).recordScores({
    ...{ fishId, scoredOn: DAYS[3]! },
    scores: [{ traitId, value: 12 }],
  });
  const saved = performance.now();
  const { traitMerit } = await ask<Told>(TRAIT, { id: traitId });
  const shown = performance.now();
  return {
    what: 'one score more, from the last solution',
    scoresTakenIn: traitMerit.scoresTakenInSince,
    savedMs: Math.round(saved - started),
    shownMs: Math.round(shown - saved),
  };
}

async function untilDone(ask: Ask, id: string): Promise<number> {
  const started = performance.now();
  while ((await ask<Told>(WAITED, { id })).traitMerit.waiting !== null)
    await new Promise((done) => setTimeout(done, 200));
  return Math.round(performance.now() - started);
}

const addressOf = (server: ChildProcess): Promise<string> =>
  new Promise((found, failed) => {
    let said = '';
    server.stdout!.on('data', (chunk: Buffer) => {
      said += chunk.toString();
      const [address] = /http:\/\/\S+:\d+/.exec(said) ?? [];
      if (address !== undefined) found(address);
    });
    server.on('exit', () => failed(new Error(said)));
  });

const signedIn = async (url: string): Promise<Ask> => {
  let cookie = '';
  const ask: Ask = async <Data>(query: string, variables: object = {}): Promise<Data> => {
    const response = await fetch(`${url}/graphql`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', ...(cookie !== '' && { cookie }) },
      body: JSON.stringify({ query, variables }),
    });
    cookie = response.headers.get('set-cookie')?.split(';')[0] ?? cookie;
    const { data, errors } = (await response.json()) as { data: Data; errors?: unknown };
    if (errors !== undefined) throw new Error(JSON.stringify(errors));
    return data;
  };
  await ask('mutation ($input: SetUpInput!) { setUp(input: $input) { signedIn } }', {
    input: { personName: 'Bench', password: randomUUID() },
  });
  return ask;
};

/** A line of big spawns, all but the last few scored once; only what is inherited and the season are in the model. */
async function filled(
  owner: DataSource,
  ask: Ask,
): Promise<{ traitId: string; unscored: string[] }> {
  const traitId = await newRecords({ graphql: ask }).createTrait({
    ...{ key: 'spread', name: 'Spread', kind: 'MEASURED' },
  });
  await ask(
    'mutation ($input: SetTraitModelInput!) { setTraitModel(input: $input) { settings { revision } } }',
    {
      input: {
        ...{ traitId, revision: 0, prior: 'FLAT', season: true },
        ...{ age: false, sex: false, linesApart: false, brood: false, looks: false },
      },
    },
  );
  const [person] = (await owner.query('SELECT id FROM person LIMIT 1')) as { id: string }[];
  const rows = rowsOf(bigSpawns(FISH, SEED));
  await owner.transaction(async (m) => {
    await m.query('SET CONSTRAINTS ALL DEFERRED');
    await m.query(
      `INSERT INTO spawn (id, person_id, tag, sire_id, dam_id)
       SELECT id, $1, tag, sire, dam FROM json_to_recordset($2::json) AS r(id uuid, tag text, sire uuid, dam uuid)`,
      [person!.id, JSON.stringify(rows.spawns)],
    );
    await m.query(
      `INSERT INTO fish (id, person_id, swims_with_id, tag, sex, spawn_id, disposition)
       SELECT id, $1, $1, tag, sex, spawn, 'keeper' FROM json_to_recordset($2::json) AS r(id uuid, tag text, sex text, spawn uuid)`,
      [person!.id, JSON.stringify(rows.fish)],
    );
    await m.query(
      `INSERT INTO score (id, fish_id, trait_id, trait_version, value, scored_on, scorer)
       SELECT gen_random_uuid(), fish, $1, 1, value, day, 'Bench' FROM json_to_recordset($2::json) AS r(fish uuid, value double precision, day date)`,
      [traitId, JSON.stringify(rows.fish.slice(0, -ROUNDS))],
    );
  });
  await owner.query('ANALYZE');
  return { traitId, unscored: rows.fish.slice(-ROUNDS).map(({ id }) => id) };
}

const DAYS = ['2026-02-01', '2026-05-01', '2026-08-01', '2026-11-01'];

function rowsOf({ sire, dam }: ParentArrays) {
  const normal = normals(seededChance(SEED));
  const ids = Array.from(sire, () => randomUUID());
  const spawns = new Map<string, { id: string; tag: string; sire: string; dam: string }>();
  const value = new Float64Array(FISH);
  const fish = ids.map((id, i) => {
    const [s, d] = [sire[i]!, dam[i]!];
    value[i] =
      s < 0 ? Math.sqrt(0.4) * normal() : (value[s]! + value[d]!) / 2 + Math.sqrt(0.2) * normal();
    const key = `${s} ${d}`;
    if (s >= 0 && !spawns.has(key))
      spawns.set(key, { id: randomUUID(), tag: `S-${key}`, sire: ids[s]!, dam: ids[d]! });
    return {
      ...{ id, tag: `T-${i}`, sex: i % 2 === 0 ? 'male' : 'female', fish: id },
      spawn: spawns.get(key)?.id ?? null,
      ...{ value: 10 + value[i]! + Math.sqrt(0.6) * normal(), day: DAYS[i % 4]! },
    };
  });
  return { spawns: [...spawns.values()], fish };
}
