import { createHash, randomUUID } from 'node:crypto';
import type pg from 'pg';
import { now } from '../../clock.js';
import { type Chance, seededChance } from '@linewright/pedigree';

/** What the bench asks of and about. */
export interface Stock {
  readonly fish: number;
  /** The largest line; its two latest broods are in use. */
  readonly lineId: string;
  readonly sireId: string;
  readonly damId: string;
  readonly spawnId: string;
  readonly traitId: string;
  /** Cookies of keepers, each with lines of their own. */
  readonly keepers: readonly {
    readonly cookie: string;
    readonly lineId: string;
    readonly fishId: string;
  }[];
}

const LINES = 20;
const BROOD = 50;
/** Of the two latest broods of a line so many fish each are kept for breeding. */
const KEPT = 12;
/** One brood in so many takes its sire from another line. */
const OUTCROSS_EACH = 20;
const BROODS_A_GENERATION = 2;
const DAYS_A_GENERATION = 180;
/** The fish of so many of the latest generations are scored. */
const SCORED_GENERATIONS = 4;

interface Made {
  readonly spawns: object[];
  readonly fish: object[];
  readonly scores: object[];
}

interface Given {
  readonly personId: string;
  readonly traitId: string;
  readonly traitVersion: number;
  readonly chance: Chance;
  readonly today: number;
}

const DAY_MS = 86_400_000;
const day = (at: number): string => new Date(at).toISOString().slice(0, 10);

interface Brood {
  readonly id: string;
  readonly fish: readonly { readonly id: string; readonly sex: string }[];
}

const score = ({ traitId, traitVersion, chance }: Given, fishId: string, hatched: number) => ({
  id: randomUUID(),
  fish_id: fishId,
  trait_id: traitId,
  trait_version: traitVersion,
  value: 1 + Math.floor(chance() * 10),
  scored_on: day(hatched + 120 * DAY_MS),
  age_days: 120,
  scorer: 'Bench',
});

const latest = (broods: readonly Brood[], sex: string, chance: Chance): string | null => {
  const found = broods.flatMap(({ fish }) => fish.slice(0, KEPT)).filter((one) => one.sex === sex);
  return found[Math.floor(chance() * found.length)]?.id ?? null;
};

/** Lines side by side, generation after generation: two broods each, of parents out of the generation before. */
const makeLines = (
  given: Given,
  lineIds: readonly string[],
  wanted: number,
): Made & { readonly last: readonly Brood[][] } => {
  const { personId, chance, today } = given;
  const made: Made = { spawns: [], fish: [], scores: [] };
  const generations = Math.ceil(wanted / (lineIds.length * BROOD * BROODS_A_GENERATION));
  let before: Brood[][] = lineIds.map(() => []);
  for (let generation = 0; generation < generations; generation += 1) {
    const fromEnd = generations - 1 - generation;
    const spawned = today - (150 + fromEnd * DAYS_A_GENERATION) * DAY_MS;
    before = lineIds.map((lineId, line) =>
      Array.from({ length: BROODS_A_GENERATION }, (_, k): Brood => {
        const other = chance() < 1 / OUTCROSS_EACH ? Math.floor(chance() * lineIds.length) : line;
        const id = randomUUID();
        const tag = `L${line}-${generation}${'ab'[k] ?? ''}`;
        const hatched = spawned + 3 * DAY_MS;
        made.spawns.push({
          ...{
            id,
            person_id: personId,
            tag,
            line_id: lineId,
            spawned_on: day(spawned),
            hatch_date: day(hatched),
          },
          ...{
            sire_id: latest(before[other]!, 'male', chance),
            dam_id: latest(before[line]!, 'female', chance),
          },
        });
        const fish = Array.from({ length: BROOD }, (_unused, i) => ({
          id: randomUUID(),
          sex: i % 2 === 0 ? 'male' : 'female',
        }));
        for (const [i, one] of fish.entries()) {
          const kept = i < KEPT;
          const standing =
            kept && fromEnd === 0
              ? 'keeper'
              : kept
                ? 'retired'
                : fromEnd === 0 && i < 2 * KEPT
                  ? 'unsorted'
                  : 'culled';
          made.fish.push({
            ...{
              ...one,
              person_id: personId,
              swims_with_id: personId,
              tag: `${tag}-${i + 1}`,
              hatch_date: day(hatched),
            },
            ...{ line_id: lineId, spawn_id: id, disposition: standing },
          });
          if (kept && fromEnd < SCORED_GENERATIONS) made.scores.push(score(given, one.id, hatched));
        }
        return { id, fish };
      }),
    );
  }
  return { ...made, last: before };
};

const CHUNK = 20_000;
const insert = async (
  client: pg.Client,
  table: string,
  columns: string,
  rows: readonly object[],
): Promise<void> => {
  const names = columns.split(', ').map((one) => one.split(' ')[0]!);
  for (let from = 0; from < rows.length; from += CHUNK)
    await client.query(
      `INSERT INTO ${table} (${names.join(', ')}) SELECT ${names.join(', ')} FROM json_to_recordset($1::json) AS r(${columns})`,
      [JSON.stringify(rows.slice(from, from + CHUNK))],
    );
};

/** Keepers to whom the lines are lent in turn, signed in. */
const makeKeepers = async (
  client: pg.Client,
  made: readonly { lineId: string; fishId: string }[],
  number: number,
) => {
  const keepers = Array.from({ length: number }, (_, k) => ({
    id: randomUUID(),
    token: `bench-keeper-${k}`,
    ...made[k % made.length]!,
  }));
  for (const { id, token, lineId } of keepers) {
    await client.query(
      `INSERT INTO person (id, name, here, role) VALUES ($1, $2, false, 'keeper')`,
      [id, `Keeper ${token}`],
    );
    await client.query(
      "INSERT INTO session (id, id_hash, person_id, expires_at) VALUES ($1, $2, $3, now() + interval '1 day')",
      [randomUUID(), createHash('sha256').update(token).digest('hex'), id],
    );
    await client.query(
      `INSERT INTO line_grant (line_id, account_id, level) VALUES ($1, $2, 'breed')`,
      [lineId, id],
    );
  }
  return keepers.map(({ token, lineId, fishId }) => ({
    cookie: `linewright_session=${token}`,
    lineId,
    fishId,
  }));
};

/**
 * Fills a database that has the demo with so many fish more, in 20 lines of broods of 50, scored in their latest generations; the latest
 * brood of each grows up, so that there is work today. Seeded: the same every time.
 */
export const fillStock = async (
  client: pg.Client,
  fish: number,
  keepers: number,
): Promise<Stock> => {
  const [owner] = (await client.query<{ id: string }>(`SELECT id FROM person WHERE role = 'owner'`))
    .rows;
  const [trait] = (
    await client.query<{ id: string; version: number }>(
      `SELECT id, version FROM trait_definition WHERE kind = 'ordinal' ORDER BY key LIMIT 1`,
    )
  ).rows;
  if (owner === undefined || trait === undefined)
    throw new Error('The demo has no owner or no trait.');
  const personId = owner.id;
  const lines = Array.from({ length: LINES }, (_, n) => ({
    id: randomUUID(),
    person_id: personId,
    code: `X${n}`,
    name: `Line ${n}`,
  }));
  await insert(client, 'line', 'id uuid, person_id uuid, code text, name text', lines);
  const given: Given = {
    personId,
    traitId: trait.id,
    traitVersion: trait.version,
    chance: seededChance(16),
    today: now(),
  };
  const made = makeLines(
    given,
    lines.map(({ id }) => id),
    fish,
  );
  await client.query('SET session_replication_role = replica');
  await insert(
    client,
    'spawn',
    'id uuid, person_id uuid, tag text, line_id uuid, spawned_on date, hatch_date date, sire_id uuid, dam_id uuid',
    made.spawns,
  );
  await insert(
    client,
    'fish',
    'id uuid, person_id uuid, swims_with_id uuid, tag text, sex text, hatch_date date, line_id uuid, spawn_id uuid, disposition text',
    made.fish,
  );
  await insert(
    client,
    'score',
    'id uuid, fish_id uuid, trait_id uuid, trait_version int, value float8, scored_on date, age_days int, scorer text',
    made.scores,
  );
  await client.query('SET session_replication_role = DEFAULT');
  await client.query('UPDATE install_state SET pedigree_revision = pedigree_revision + 1');
  const [one, two] = made.last[0]!;
  const opened = await makeKeepers(
    client,
    made.last.map(([brood], line) => ({ lineId: lines[line]!.id, fishId: brood!.fish[0]!.id })),
    keepers,
  );
  await client.query('ANALYZE');
  return {
    ...{
      fish: made.fish.length,
      lineId: lines[0]!.id,
      spawnId: one!.id,
      traitId: trait.id,
      keepers: opened,
    },
    sireId: one!.fish[0]!.id,
    damId: two!.fish[1]!.id,
  };
};
