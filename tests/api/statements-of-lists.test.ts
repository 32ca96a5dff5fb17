import { GraphQLSchemaHost } from '@nestjs/graphql';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAgo, hoursAgo, now } from '../clock.js';
import { type RunningApi, startApi } from './harness.js';
import { copies, row, sql } from './more-rows.js';
import { listenToStatements, type SentStatements } from './sent-statements.js';
import { selectionsOf } from './selections.js';

/** A list, how one of `length` is asked for, and where its items stand in the answer. */
interface List {
  readonly name: string;
  readonly itemType: string;
  readonly ask: (selection: string, length: number) => string;
}

const MANY = 50;
/** What more there is to ask where the first item alone has no sire, no line or no spawn: once for all of them. */
const OF_MORE_KINDS = 6;
/**
 * What is worked out for each item by itself, and on screens asked of one at a time: a spawn's plan of care, where the inbreeding
 * of a fish comes from, whether an act could be taken back, which is tried out, what a fish passes on, and what chance drew of a
 * brood at the bench.
 */
const EACH = new Set(['care', 'inbreedingSources', 'inTheWay', 'merit', 'scoringDraws']);
/** Water that asks for help. */
const foul = { total_ammonia: 5, ammonia_unit: 'N', ph: 8.6, celsius: 28 };

const connection = (name: string, itemType: string, given = ''): List => ({
  name,
  itemType,
  ask: (selection, length) =>
    `{ list: ${name}(first: ${length} ${given}) { edges { node { ${selection} } } } }`,
});

const whole = (name: string, itemType: string, given = ''): List => ({
  name,
  itemType,
  ask: (selection) => `{ list: ${name}${given} { ${selection} } }`,
});

const within = (holder: string, id: string, name: string, itemType: string): List => ({
  name: `${holder}.${name}`,
  itemType,
  ask: (selection) => `{ holder: ${holder}(id: "${id}") { list: ${name} { ${selection} } } }`,
});

type Answer = { list?: unknown; holder?: { list: unknown } };

const itemsIn = ({ list, holder }: Answer): unknown[] => {
  const found = (list ?? holder?.list) as unknown[] | { edges: unknown[] };
  return Array.isArray(found) ? found : found.edges;
};

describe('statements of a list', () => {
  let api: RunningApi;
  let statements: SentStatements;
  let lists: List[] = [];
  /** Makes each list longer by 49. */
  let grow = async (): Promise<void> => {};

  beforeAll(async () => {
    api = await startApi({ demo: true });
    const first = async (
      table: string,
      where = 'true',
    ): Promise<{ id: string } & Record<string, string>> =>
      (
        await sql<{ id: string } & Record<string, string>>(
          api,
          `SELECT * FROM "${table}" WHERE ${where} ORDER BY id LIMIT 1`,
        )
      )[0]!;
    const personId = (await first('person', 'here'))['id'];
    const [fishId = ''] = await copies(
      api,
      'fish',
      1,
      {},
      (await first('fish', "disposition = 'keeper' AND spawn_id IS NOT NULL AND sex = 'male'")).id,
    );
    const [spawnId = ''] = await copies(api, 'spawn', 1, { failed: false, pairing_id: null });
    const [pairingId = ''] = await copies(api, 'pairing', 1, {});
    const [looked = ''] = await copies(api, 'sheet_scoring', 1, { fish_id: fishId });
    const lineId = (await first('line')).id;
    const plan = { personId, by_name: 'Owner', at: new Date(now()) };
    const act = await row(api, 'fish_act', {
      person_id: plan.personId,
      what: 'kept',
      fish_count: 1,
      by_name: 'O',
      at: plan.at,
    });
    const round = await row(api, 'round', {
      ...{ person_id: personId, line_id: lineId, purpose_version: 0, planned_on: daysAgo(3) },
      ...{ expected_worth: 1, expected_kinship: 0.1, expected_inbreeding: 0.1 },
    });
    const jar = (await first('vessel')).id;
    const [otherId] = await copies(api, 'person', 1, { role: 'partner', here: false });
    const handed = await row(api, 'hand_over', {
      ...{ group_id: lineId, fish_id: fishId, from_id: otherId, to_id: personId, to_name: 'O' },
      ...{ kind: 'gift', offered_on: daysAgo(3), tag: 'H', sex: 'male' },
    });
    const claim = await row(api, 'fish_claim', {
      ...{ fish_id: fishId, tag: 'H', by_id: otherId, to_id: personId, claimed_on: daysAgo(3) },
    });
    const counts = { fish: 1, spawns: 0, lines: 0, scores: 0, traits: 0 };
    const past = await row(api, 'past_import', {
      person_id: personId,
      file_name: 'a.csv',
      by_name: 'O',
      at: plan.at,
      counts: JSON.stringify(counts),
    });
    const run = await row(api, 'import_run', {
      person_id: personId,
      purpose: 'take',
      file_name: 'a.csv',
      columns: '[]',
    });
    const done = {
      state: 'done',
      asked_by: 'O',
      progress: 1,
      evidence: '',
      ended_at: new Date(now()),
    };
    const work = await row(api, 'computation', {
      kind: 'import',
      subject: run,
      ...done,
      result: JSON.stringify({ counts: { ...counts, unchanged: 0 } }),
    });
    const ofFish = ['score', 'genotype', 'phenotype', 'photo', 'sheet_scoring'];
    const ofSpawn = ['spawn_event', 'spawn_count', 'spawn_loss', 'class_count', 'care_record'];
    /** Every round has the pair that was chosen first. */
    const pairTheRounds = () =>
      sql(
        api,
        `INSERT INTO round_pair (round_id, pairing_id, place, expected_worth, expected_inbreeding)
         SELECT id, $1, 1, 1, 0.1 FROM round ON CONFLICT DO NOTHING`,
        [pairingId],
      );
    await pairTheRounds();
    const more = async (number: number): Promise<void> => {
      for (const table of ofFish)
        await copies(api, table, number, {
          fish_id: fishId,
          ...(table === 'photo' && { spawn_id: null, subject_kind: 'fish', subject_id: fishId }),
        });
      for (const table of ofSpawn) await copies(api, table, number, { spawn_id: spawnId });
      await copies(api, 'photo', number, {
        fish_id: null,
        spawn_id: spawnId,
        subject_kind: 'spawn',
        subject_id: spawnId,
      });
      await copies(api, 'fish', number, { spawn_id: spawnId });
      await copies(api, 'spawn', number, {
        sire_id: fishId,
        pairing_id: pairingId,
        spawned_on: daysAgo(3),
        hatch_date: null,
        failed: false,
        failed_reason: null,
        withdrawn_at: null,
      });
      await copies(api, 'score', number, { fish_id: fishId, scoring_id: looked });
      await copies(api, 'water_reading', number, { spawn_id: spawnId, vessel_id: null });
    };
    await more(1);
    grow = async () => {
      await more(MANY - 1);
      const lines = await copies(api, 'line', MANY);
      for (const lineId of lines) {
        await row(api, 'care_template', {
          person_id: personId,
          line_id: lineId,
          name: 'Own',
          steps: '[]',
        });
        await copies(api, 'locus_setting', 1, { line_id: lineId });
        await copies(api, 'fish', 1, { line_id: lineId });
      }
      await copies(api, 'pairing', MANY, { state: 'planned' });
      await copies(api, 'round', MANY, {}, round);
      await pairTheRounds();
      await copies(api, 'trait_definition', MANY);
      const sheet = await first('score_sheet');
      await copies(api, 'score_sheet', MANY, {}, sheet.id);
      await sql(
        api,
        `INSERT INTO score_sheet_version SELECT (jsonb_populate_record(v, jsonb_build_object('sheet_id', s.id))).*
         FROM score_sheet_version v, score_sheet s
         WHERE v.sheet_id = $1 AND NOT EXISTS (SELECT 1 FROM score_sheet_version w WHERE w.sheet_id = s.id)`,
        [sheet.id],
      );
      await copies(api, 'person', MANY, { role: 'partner', here: false });
      await copies(api, 'hand_over', MANY, {}, handed);
      await copies(api, 'fish_claim', MANY, {}, claim);
      await copies(api, 'fish_act', MANY, {}, act);
      await copies(api, 'past_import', MANY, {}, past);
      for (const id of await copies(api, 'import_run', MANY, {}, run))
        await copies(api, 'computation', 1, {}, work).then(([one]) =>
          sql(api, 'UPDATE computation SET subject = $1 WHERE id = $2', [id, one]),
        );
      const kept = await copies(api, 'vessel', MANY, {}, jar);
      for (const vesselId of kept) {
        const [inIt] = await copies(api, 'fish', 1, { withdrawn_at: null });
        const stay = { vessel_id: vesselId, came_at: plan.at, by_name: 'O' };
        await row(api, 'vessel_stay', { ...stay, fish_id: inIt });
        await row(api, 'vessel_stay', { ...stay, fish_id: fishId, left_at: plan.at });
      }
      for (const at of Array.from({ length: MANY }, (_, k) => k))
        await copies(api, 'water_reading', 1, {
          spawn_id: null,
          vessel_id: kept[at],
          taken_at: hoursAgo(1),
          ...foul,
        });
      await sql(
        api,
        `INSERT INTO record_history (record_kind, record_id, revision, by_name, action, changes)
         SELECT 'fish', $1, n + 1, 'O', 'corrected', '{}' FROM generate_series(1, 50) n`,
        [fishId],
      );
    };
    await sql(
      api,
      `INSERT INTO record_history (record_kind, record_id, revision, by_name, action, changes) VALUES ('fish', $1, 1, 'O', 'recorded', '{}')`,
      [fishId],
    );
    const here = `from: "${daysAgo(5)}", to: "${daysAgo(-30)}", zone: "Europe/Berlin"`;
    lists = [
      connection('fishList', 'Fish'),
      connection('spawnList', 'Spawn'),
      connection('waterReadings', 'WaterReading', `, spawnId: "${spawnId}"`),
      connection('vessels', 'Vessel'),
      connection('vesselStays', 'VesselStay', `, fishId: "${fishId}"`),
      connection('fishActs', 'FishAct'),
      connection('pastImports', 'PastImport'),
      connection('importRuns', 'ImportRun'),
      connection('computations', 'Computation'),
      connection('history', 'RecordChange', `, recordKind: FISH, recordId: "${fishId}"`),
      connection('pairingCandidates', 'PairingCandidate', ', input: {}'),
      connection('rounds', 'Round', `, lineId: "${lineId}"`),
      connection('handOvers', 'HandOver'),
      connection('fishClaims', 'FishClaim'),
      whole('lines', 'Line'),
      whole('traits', 'TraitDefinition'),
      whole('pairings', 'Pairing'),
      whole('people', 'Person'),
      whole('fishReceivers', 'Person'),
      whole('handOversDue', 'HandOver'),
      whole('locusSettings', 'LocusSetting'),
      whole('scoreSheets', 'ScoreSheet'),
      whole('careTasks', 'CareTask', `(${here})`),
      whole('careTemplates', 'CareTemplate'),
      whole('waterPlaces', 'WaterPlace'),
      whole('waterAlerts', 'WaterAlert'),
      whole('outcrosses', 'OutcrossSuggestion', `(input: { lineId: "${lineId}", first: 50 })`),
      ...Object.entries({
        scores: 'Score',
        genotypes: 'Genotype',
        phenotypesSeen: 'SeenPhenotype',
        photos: 'Photo',
        sheetScorings: 'SheetScoring',
        handOvers: 'HandOver',
        spawnsAsParent: 'Spawn',
        history: 'RecordChange',
      }).map(([name, type]) => within('fish', fishId, name, type)),
      ...Object.entries({
        fish: 'Fish',
        events: 'SpawnEvent',
        counts: 'SpawnCount',
        losses: 'SpawnLoss',
        classCounts: 'ClassCount',
        photos: 'Photo',
      }).map(([name, type]) => within('spawn', spawnId, name, type)),
      within('pairing', pairingId, 'spawns', 'Spawn'),
    ];
    statements = await listenToStatements(api);
  });

  afterAll(async () => {
    statements.stop();
    await api.close();
  });

  it('do not grow with its length, whatever field of an item is asked for', async () => {
    const { schema } = api.served.app.get(GraphQLSchemaHost);
    const looks = () =>
      lists.flatMap((list) =>
        selectionsOf(schema, list.itemType).map((selection) => ({
          list,
          selection,
          key: `${list.name}: ${selection.split(' ')[0]}`,
        })),
      );
    expect(lists.filter(({ itemType }) => selectionsOf(schema, itemType).length === 0)).toEqual([]);
    const few = new Map<string, number>();
    const tooCostly: string[] = [];
    for (const { list, selection, key } of looks()) {
      const sent = await sentFor(list, selection, 1);
      if (sent === null) tooCostly.push(key);
      else few.set(key, sent.length);
    }
    // Asked of one fish at a time, by itself.
    expect(new Set(tooCostly.map((key) => key.split(' ')[1]))).toEqual(new Set(['merit']));
    await grow();
    const short: string[] = [];
    for (const list of lists) {
      const items = itemsIn(await api.graphql<Answer>(list.ask('__typename', MANY)));
      if (items.length < 20) short.push(`${list.name} ${items.length}`);
    }
    expect.soft(short).toEqual([]);
    const grown: string[] = [];
    for (const { list, selection, key } of looks()) {
      if (!few.has(key) || EACH.has(selection.split(' ')[0] ?? '')) continue;
      const many = (await sentFor(list, selection))?.length ?? 0;
      expect(many, key).toBeGreaterThan(0);
      if (many > (few.get(key) ?? 0) + OF_MORE_KINDS)
        grown.push(`${key} ${few.get(key)} -> ${many}`);
    }
    expect(grown).toEqual([]);
    expect(few.size).toBeGreaterThan(250);
  });

  /** Of 50 items, or of fewer where 50 with that field are more than one request may ask for; null where one is. */
  const sentFor = async (
    list: List,
    selection: string,
    length = MANY,
  ): Promise<string[] | null> => {
    try {
      return await statements.of(list.ask(selection, length));
    } catch (error) {
      if (!/QUERY_TOO_COSTLY|ANSWER_TOO_LARGE/.test(String(error))) throw error;
      if (length === 1) return null;
      if (length < 10) throw error;
      return sentFor(list, selection, Math.floor(length / 2));
    }
  };
});
