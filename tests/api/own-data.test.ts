import { existsSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import type { DataSource } from 'typeorm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { accountColumns, ofAccount } from '../../apps/api/src/stock/own-data/erase-account.js';
import { nobodysTables, ownTables } from '../../apps/api/src/stock/own-data/own-tables.js';
import { CONFIG } from '../../apps/api/src/config/config.token.js';
import { daysAgo, today } from '../clock.js';
import { newRecords } from '../new-records.js';
import { PASSWORD, recordsOf, type RunningApi, startApi } from './harness.js';
import { type Joined, joined, madeBy } from './joined.js';
import { lineFile, partsOfZip, sent } from './line-files.js';

const THEIR_PASSWORD = 'three green snails';
/** Stands in every text that is somebody's own, so that any of it is found wherever it is kept. */
const MARK = 'Zyxtra';

const ERASE = `mutation ($password: String!, $input: EraseOwnDataInput!) {
  eraseOwnData(password: $password, input: $input) { signedIn setUpNeeded } }`;
const COMMENT =
  'mutation ($words: String!, $of: ID!) { addComment(input: { words: $words, fishId: $of }) { id } }';
const TOLD = `{ ownData { tables { title count } photos pseudonym backups { count folders } heirs { id name } others } }`;

interface Told {
  readonly ownData: {
    tables: { title: string; count: number }[];
    photos: number;
    pseudonym: string;
    backups: { count: number; folders: string[] };
    heirs: { id: string; name: string }[];
    others: number;
  };
}

/** Where a word still stands: every column of every table that can hold text, read as whoever owns the tables. */
const placesOf = async (records: DataSource, word: string): Promise<string[]> => {
  const columns = (await records.query(
    `SELECT c.table_name AS table, c.column_name AS name FROM information_schema.columns c
     JOIN information_schema.tables t USING (table_schema, table_name)
     WHERE c.table_schema = current_schema() AND t.table_type = 'BASE TABLE'
       AND c.data_type IN ('text', 'jsonb', 'json', 'ARRAY', 'character varying', 'uuid', 'bytea')`,
  )) as { table: string; name: string }[];
  const found: string[] = [];
  for (const { table, name } of columns) {
    const [row] = (await records.query(
      `SELECT count(*)::int AS count FROM "${table}" WHERE position(lower($1) IN lower("${name}"::text)) > 0`,
      [word],
    )) as { count: number }[];
    if ((row?.count ?? 0) > 0) found.push(`${table}.${name} (${row!.count})`);
  }
  return found;
};

const inbreedingOf = async (api: RunningApi, id: string): Promise<number | null> =>
  (
    await api.graphql<{ fish: { inbreedingCoefficient: number | null } }>(
      'query ($id: ID!) { fish(id: $id) { inbreedingCoefficient } }',
      { id },
    )
  ).fish.inbreedingCoefficient;

/** Columns that say whose a record is. Somebody who leaves becomes a pseudonym under the same id; an install that is handed on keeps its id. */
const WHOSE: readonly string[] = [
  ...['fish.person_id', 'fish.swims_with_id', 'spawn.person_id', 'line.person_id'],
  ...['pairing.person_id', 'hand_over.from_id', 'hand_over.to_id', 'fish_claim.by_id'],
  ...['fish_claim.to_id', 'kept_line.account_id', 'own_locus.person_id', 'score_sheet.person_id'],
  ...['trait_definition.person_id'],
];
/** Columns of rows that go when somebody is erased: `goes`, `ofBoth`, what they did, and their installs. */
const GO: readonly string[] = [
  ...['round.person_id', 'line_route.person_id', 'care_template.person_id'],
  ...['vessel.person_id', 'water_reading.person_id', 'water_rule.person_id', 'fish_act.person_id'],
  ...['past_import.person_id', 'line_grant.account_id', 'club_line.keeper_id'],
  ...['club_request.from_id', 'club_request.to_id', 'partner_install.person_id'],
  // Answers worked out before are forgotten whenever somebody is erased.
  'computation.partner_id',
  'fish_deal.person_id',
];

describe('every table', () => {
  it('that names people is thought of where somebody is erased or an install is handed on', async () => {
    const api = await startApi();
    try {
      const rows = (await (
        await recordsOf(api)
      ).query(
        `SELECT c.relname || '.' || a.attname AS name FROM pg_class c
         JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum > 0 AND NOT a.attisdropped
         LEFT JOIN pg_attrdef d ON d.adrelid = c.oid AND d.adnum = a.attnum
         WHERE c.relnamespace = current_schema()::regnamespace AND c.relkind = 'r' AND a.atttypid = 'uuid'::regtype
           AND (a.attname ~ '(person|account|keeper|partner|maker)_id$' OR pg_get_expr(d.adbin, d.adrelid) LIKE '%door_account%'
             OR EXISTS (SELECT 1 FROM pg_constraint k WHERE k.conrelid = c.oid AND k.contype = 'f'
               AND k.confrelid = 'person'::regclass AND a.attnum = ANY (k.conkey)))`,
      )) as { name: string }[];
      const found = rows.map(({ name }) => name);
      const known = [
        ...[...WHOSE, ...GO, ...ofAccount.map((table) => `${table}.person_id`)],
        ...accountColumns.map(([table, column]) => `${table}.${column}`),
      ];
      expect(found.filter((name) => !known.includes(name))).toEqual([]);
      expect(known.filter((name) => !found.includes(name))).toEqual([]);
      expect(new Set(known).size).toBe(known.length);
    } finally {
      await api.close();
    }
  });

  it('is told as somebody’s own, or as nobody’s with the reason', async () => {
    const api = await startApi();
    try {
      const rows = (await (
        await recordsOf(api)
      ).query(
        `SELECT table_name AS name FROM information_schema.tables WHERE table_schema = current_schema() AND table_type = 'BASE TABLE'`,
      )) as { name: string }[];
      const tables = rows.map(({ name }) => name);
      const known = [...ownTables.map(({ table }) => table), ...Object.keys(nobodysTables)];
      expect(tables.filter((table) => !known.includes(table))).toEqual([]);
      expect(known.filter((table) => !tables.includes(table))).toEqual([]);
      expect(new Set(known).size).toBe(known.length);
    } finally {
      await api.close();
    }
  });
});

describe('a partner who bred in a line that is not theirs', () => {
  let api: RunningApi;
  let records: DataSource;
  let partner: Joined;
  const ids: Record<string, string> = {};
  let inbredBefore: number | null;
  let picture = '';
  let before: Buffer;

  beforeAll(async () => {
    api = await startApi();
    records = await recordsOf(api);
    const make = newRecords(api);
    const lineId = await make.createLine({ code: 'LENT', name: 'Lent line' });
    ids['sire'] = await make.createFish({ tag: 'SIRE', sex: 'MALE', lineId });
    ids['dam'] = await make.createFish({ tag: 'DAM', sex: 'FEMALE', lineId });
    ids['trait'] = await make.createTrait({
      ...{ key: 'length', name: 'Length', kind: 'MEASURED', unit: 'mm' },
    });
    partner = await joined(api, `Runa ${MARK}`, 'PARTNER');
    await api.graphql('mutation ($input: GrantLineInput!) { grantLine(input: $input) { level } }', {
      input: {
        ...{ personId: partner.id, lineId, level: 'BREED' },
        ...{ scores: true, photos: true, notes: true, water: true, place: true },
      },
    });
    await bred(lineId);
  });
  afterAll(() => api.close());

  /** What they record: a spawn of the owner's pair, two young, and what they wrote of them. */
  const bred = async (lineId: string): Promise<void> => {
    const theirs = madeBy(partner);
    const pair = { sireId: ids['sire'] ?? '', damId: ids['dam'] ?? '' };
    await theirs.planPairing({
      ...{ ...pair, plannedOn: today(), confirmed: true, note: `${MARK} plan` },
    });
    const spawnId = await theirs.createSpawn({
      ...{ tag: `${MARK}-S`, lineId, ...pair, spawnedOn: daysAgo(90), note: `${MARK} spawn` },
      purpose: `${MARK} purpose`,
    });
    await theirs.recordSpawnEvent({
      ...{ spawnId, kind: 'SPAWNED', at: `${daysAgo(90)}T08:00:00Z`, note: `${MARK} event` },
    });
    await theirs.recordSpawnCount({
      ...{ spawnId, stage: 'EGGS', number: 90, countedOn: daysAgo(90), note: `${MARK} eggs` },
    });
    const [son] = await theirs.addFishToSpawn({ spawnId, number: 1, sex: 'MALE' });
    const [daughter] = await theirs.addFishToSpawn({ spawnId, number: 1, sex: 'FEMALE' });
    const { fish } = (
      await partner.send<{ fish: { revision: number } }>(
        'query ($id: ID!) { fish(id: $id) { revision } }',
        { id: son },
      )
    ).data!;
    const corrected = await partner.send(
      'mutation ($input: CorrectFishInput!) { correctFish(input: $input) { id } }',
      {
        input: {
          ...{ id: son, revision: fish.revision, name: `${MARK} name`, note: `${MARK} note` },
          origin: `${MARK} place`,
        },
      },
    );
    expect(corrected.errors).toBe(undefined);
    await theirs.recordScores({
      ...{ fishId: ids['sire'] ?? '', scoredOn: today() },
      scores: [{ traitId: ids['trait'] ?? '', value: 41, note: `${MARK} score` }],
    });
    const said = await partner.send(COMMENT, { words: `${MARK} comment`, of: son });
    expect(said.errors).toBe(undefined);
    // The owner goes on with their young: F of the next generation rests on them, and the owner scored one.
    const next = await newRecords(api).createSpawn({
      ...{ tag: 'NEXT', lineId, sireId: son ?? '', damId: daughter ?? '', spawnedOn: daysAgo(9) },
    });
    const [inbred] = await newRecords(api).addFishToSpawn({
      ...{ spawnId: next, number: 1, sex: 'UNSEXED' },
    });
    await newRecords(api).recordScores({
      ...{ fishId: son ?? '', scoredOn: today() },
      scores: [{ traitId: ids['trait'] ?? '', value: 39 }],
    });
    Object.assign(ids, { spawn: spawnId, son, daughter, inbred });
    const bytes = await sharp({
      create: { width: 60, height: 40, channels: 3, background: '#338811' },
    })
      .png()
      .toBuffer();
    const photo = crypto.randomUUID();
    const added = await api.http(`/photos/${photo}?kind=fish&of=${son}`, {
      ...{ method: 'PUT', body: new Uint8Array(bytes), headers: { origin: api.url } },
    });
    expect(added.status).toBe(200);
    // The line went out as a file, so that versions of every record are kept.
    before = await lineFile(api, lineId, '?photos=yes');
    inbredBefore = await inbreedingOf(api, inbred ?? '');
    const [row] = (await records.query('SELECT sha256 FROM photo')) as { sha256: string }[];
    picture = row?.sha256 ?? '';
  };

  it('is told all that is recorded of them and takes it out as one file, without a secret and without others’', async () => {
    const { data } = await partner.send<Told>(TOLD);
    const count = new Map(data!.ownData.tables.map(({ title, count }) => [title, count]));
    expect(count.get('Fish')).toBe(2);
    expect(count.get('Scores')).toBe(2);
    expect(data!.ownData).toMatchObject({ photos: 1, pseudonym: 'Keeper 1', heirs: [], others: 0 });
    const response = await partner.http('/export/own-data.zip');
    expect(response.status).toBe(200);
    const parts = await partsOfZip(Buffer.from(await response.arrayBuffer()));
    const read = (name: string): Record<string, unknown>[] =>
      JSON.parse(parts.get(name)!.toString('utf8')) as Record<string, unknown>[];
    expect(
      read('data/fish.json')
        .map(({ id }) => id)
        .sort(),
    ).toEqual([ids['son'], ids['daughter']].sort());
    expect(
      read('data/score.json')
        .map(({ value }) => value)
        .sort(),
    ).toEqual([39, 41]);
    expect(Object.keys(read('data/session.json')[0]!)).not.toContain('id_hash');
    const names = [...parts.keys()];
    expect(names).toContain(`photos/${picture}.png`);
    expect(parts.get('read-me.html')!.toString('utf8')).toContain(`${MARK} note`);
    const all = Buffer.concat([...parts.values()]).toString('latin1');
    expect(all).not.toContain('argon2');
    expect(all).not.toContain('"SIRE"');
  });

  it('is not shown to the owner who looks at what they see', async () => {
    const headers = { 'linewright-seen-as': partner.id };
    expect((await api.http('/export/own-data.zip', { headers })).status).toBe(403);
  });

  it('is erased by their password and their name alone', async () => {
    const erase = (password: string, confirm: string) =>
      partner.send(ERASE, { password, input: { confirm } });
    const wrong = await erase('not theirs at all', `Runa ${MARK}`);
    expect(wrong.errors?.[0]?.extensions.code).toBe('PASSWORD_WRONG');
    const slip = await erase(THEIR_PASSWORD, 'Runa');
    expect(slip.errors?.[0]?.message).toMatch(/as it stands here/);
    expect((await placesOf(records, MARK)).length).toBeGreaterThan(8);
    const done = await erase(THEIR_PASSWORD, `Runa ${MARK}`);
    expect(done.errors).toBe(undefined);
    expect(done.data).toMatchObject({ eraseOwnData: { signedIn: false } });
  });

  it('leaves nothing of what they wrote in any table, and no picture', async () => {
    expect(await placesOf(records, MARK)).toEqual([]);
    expect(await placesOf(records, picture)).toEqual([]);
    const { photosDir } = api.served.app.get<{ photosDir: string }>(CONFIG, { strict: false });
    expect(existsSync(join(photosDir, picture.slice(0, 2), picture))).toBe(false);
    expect((await partner.send('{ session { signedIn } }')).data).toEqual({
      session: { signedIn: false },
    });
  });

  it('leaves the pedigree under a pseudonym, so that F stays, and others’ scores', async () => {
    expect(inbredBefore).toBe(0.25);
    expect(await inbreedingOf(api, ids['inbred'] ?? '')).toBe(0.25);
    const { fish } = await api.graphql<{ fish: object }>(
      'query ($id: ID!) { fish(id: $id) { tag name note sex person { name } spawn { tag spawnedOn note } scores { value } } }',
      { id: ids['son'] },
    );
    expect(fish).toMatchObject({
      ...{ tag: 'Keeper 1-1', name: null, note: null, sex: 'MALE', person: { name: 'Keeper 1' } },
      ...{ spawn: { tag: 'Keeper 1-S1', spawnedOn: daysAgo(90), note: null } },
      scores: [{ value: 39 }],
    });
    const scores = await records.query('SELECT scorer, value, note FROM score ORDER BY value');
    expect(scores).toEqual([
      { scorer: 'Test keeper', value: 39, note: null },
      { scorer: 'Keeper 1', value: 41, note: null },
    ]);
    const history = await records.query(
      `SELECT DISTINCT by_name AS name, changes::text FROM record_history WHERE record_id = $1`,
      [ids['son']],
    );
    expect(history).toEqual([{ name: 'Keeper 1', changes: '{}' }]);
  });

  it('does not come back with a file of before', async () => {
    const taken = await api.graphql<{ acceptShare: { added: number; updated: number } }>(
      'mutation ($file: ID!) { acceptShare(file: $file) { added updated } }',
      { file: await sent(api, before) },
    );
    expect(taken.acceptShare).toEqual({ added: 0, updated: 0 });
    expect(await placesOf(records, MARK)).toEqual([]);
    expect(await placesOf(records, picture)).toEqual([]);
  });

  it('goes on being a line that is given, without what was erased', async () => {
    const { lines } = await api.graphql<{ lines: { id: string }[] }>('{ lines { id } }');
    const response = await api.http(`/export/line/${lines[0]?.id}.zip?photos=yes`);
    const parts = await partsOfZip(Buffer.from(await response.arrayBuffer()));
    const text = parts.get('line.json')!.toString('utf8');
    expect(text).toContain('Keeper 1-1');
    expect(text).not.toContain(MARK);
  });
});

describe('an owner who leaves', () => {
  it('says first what becomes of the install, and hands it to somebody of the household with all records', async () => {
    const api = await startApi();
    try {
      const records = await recordsOf(api);
      const { session } = await api.graphql<{ session: { person: { id: string } } }>(
        '{ session { person { id } } }',
      );
      await api.graphql(
        'mutation ($p: String!, $c: String) { setPassword(password: $p, current: $c) { signedIn } }',
        { p: `${PASSWORD} two`, c: PASSWORD },
      );
      const make = newRecords(api);
      const fishId = await make.createFish({ tag: 'F-1', sex: 'MALE', note: 'kept' });
      const siv = await joined(api, 'Siv', 'HOUSEHOLD');
      const damId = await make.createFish({ tag: 'F-2', sex: 'FEMALE' });
      await make.planPairing({ sireId: fishId, damId, plannedOn: today(), confirmed: true });
      await records.query('UPDATE pairing SET maker_id = $1', [siv.id]);
      const own = (await api.graphql<Told>(TOLD)).ownData;
      expect(own.heirs).toEqual([{ id: siv.id, name: 'Siv' }]);
      expect(own.others).toBe(1);
      const erase = (more: object) =>
        api.send(ERASE, {
          ...{ password: `${PASSWORD} two`, input: { confirm: 'Test keeper', ...more } },
        });
      expect((await erase({})).errors?.[0]?.message).toMatch(/what becomes of the install/);
      const nobody = await erase({ afterwards: 'HAND_OVER', heirId: session.person.id });
      expect(nobody.errors?.[0]?.message).toMatch(/somebody of the household/);
      expect((await erase({ afterwards: 'HAND_OVER', heirId: siv.id })).errors).toBe(undefined);
      expect(await placesOf(records, 'Test keeper')).toEqual([]);
      const now = await siv.send('{ session { role person { name } } }');
      expect(now.data).toEqual({ session: { role: 'OWNER', person: { name: 'Siv' } } });
      const fish = await siv.send(
        'query ($id: ID!) { fish(id: $id) { tag note person { name here } } }',
        { id: fishId },
      );
      expect(fish.data).toEqual({
        fish: { tag: 'F-1', note: 'kept', person: { name: 'Siv', here: true } },
      });
      const by = await records.query(
        'SELECT DISTINCT h.by_name AS name, p.name AS account FROM record_history h JOIN person p ON p.id = h.by_account_id',
      );
      expect(by).toEqual([{ name: 'Keeper 1', account: 'Keeper 1' }]);
      // What the heir was to do is theirs still.
      const makers = await records.query('SELECT maker_id AS id FROM pairing');
      expect(makers).toEqual([{ id: session.person.id }]);
    } finally {
      await api.close();
    }
  });

  it('may end it: nothing is left, and whoever comes next begins with a first start', async () => {
    const api = await startApi();
    try {
      const records = await recordsOf(api);
      await newRecords(api).createFish({ tag: `${MARK}-1`, sex: 'MALE', note: MARK });
      await api.graphql('{ ownInstall { code } }');
      await api.graphql('mutation { makeBackup { underWay } }');
      const standing = async (): Promise<number> =>
        (await api.graphql<Told>(TOLD)).ownData.backups.count;
      await expect.poll(standing, { timeout: 60_000 }).toBe(1);
      const [folder] = (await api.graphql<Told>(TOLD)).ownData.backups.folders;
      const { readdirSync } = await import('node:fs');
      expect(readdirSync(folder!).filter((name) => name.endsWith('.zip'))).toHaveLength(1);
      const ended = await api.send(ERASE, {
        password: PASSWORD,
        input: { confirm: 'Test keeper', afterwards: 'END', withBackups: true },
      });
      expect(ended.errors).toBe(undefined);
      expect(ended.data).toMatchObject({ eraseOwnData: { signedIn: false, setUpNeeded: true } });
      expect(await placesOf(records, MARK)).toEqual([]);
      expect(await placesOf(records, 'Test keeper')).toEqual([]);
      expect(readdirSync(folder!).filter((name) => name.endsWith('.zip'))).toEqual([]);
      for (const { tableName } of records.entityMetadatas) {
        if (['install_state', 'record_mark', 'refused_attempt'].includes(tableName)) continue;
        expect([tableName, await records.query(`SELECT 1 FROM "${tableName}"`)]).toEqual([
          ...[tableName, []],
        ]);
      }
    } finally {
      await api.close();
    }
  });
});
