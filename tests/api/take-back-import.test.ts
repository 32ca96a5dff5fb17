import type { DataSource } from 'typeorm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PastImports1764123000000 } from '../../db/migrations/src/1764123000000-past-imports.js';
import { type RunningApi, startApi, recordsOf } from './harness.js';
import { creation } from '../new-records.js';

const TAKE = `mutation ($text: String!, $fileName: String!) {
  confirmImport(fileName: $fileName, text: $text, columns: []) { fish spawns lines scores traits unchanged } }`;
const PAST = `{ pastImports { edges { node { id fileName by fish spawns lines scores traits takenBackAt takenBackBy takenBackReason } } } }`;
const LOOK = `query ($id: ID!) { takeBackPreview(id: $id) { ready resting { kind count names } changed changedNames } }`;
const BACK = `mutation ($id: ID!, $reason: String!) {
  takeBackImport(id: $id, reason: $reason) { id takenBackAt takenBackBy takenBackReason } }`;
const FISH = `query ($tag: String!) {
  fishByTag(tag: $tag) { id tag withdrawn { reason } sire { tag } line { id code } spawn { id tag }
    history { action by changes { field before after } } } }`;
const PAIR = creation('planPairing');
const UNPAIR = `mutation ($input: WithdrawInput!) { dropPairing(input: $input) { id } }`;
const DECIDE = `mutation ($input: DecideFishInput!) { decideFish(input: $input) { id } }`;
const WITHDRAW_FISH = `mutation ($input: WithdrawInput!) { withdrawFish(input: $input) { id } }`;

const wrong = [
  'tag,sire,dam,sex,hatch_date,line,length',
  'S,,,male,2024-01-01,RED,40',
  'D,,,female,2024-01-01,RED,38',
  'Y1,S,D,male,2024-06-01,RED,20',
  'Y2,S,D,female,2024-06-01,RED,21',
].join('\n');
const right = wrong.replace('2024-06-01,RED,20', '2024-06-02,RED,22');

interface Past {
  id: string;
  fileName: string;
  takenBackAt: string | null;
}

describe('taking an import back', () => {
  let api: RunningApi;
  let db: DataSource;
  beforeAll(async () => {
    api = await startApi();
    db = await recordsOf(api);
  });
  afterAll(() => api.close());

  const take = async (text: string, fileName: string) =>
    (await api.graphql<{ confirmImport: object }>(TAKE, { text, fileName })).confirmImport;
  const past = async () =>
    (await api.graphql<{ pastImports: { edges: { node: Past }[] } }>(PAST)).pastImports.edges.map(
      ({ node }) => node,
    );
  const look = async (id: string) =>
    (await api.graphql<{ takeBackPreview: object }>(LOOK, { id })).takeBackPreview;
  const fish = async (tag: string) =>
    (
      await api.graphql<{
        fishByTag: {
          id: string;
          spawn: { id: string } | null;
          line: { id: string };
        } | null;
      }>(FISH, { tag })
    ).fishByTag;
  const inUse = async (): Promise<string> => {
    const parts = ['fish', 'spawn', 'line', 'trait_definition', 'score'].map(
      (table) =>
        `(SELECT json_agg(json_build_array(id, revision, withdrawn_at) ORDER BY id) FROM "${table}")`,
    );
    const [row]: { all: unknown }[] = await db.query(
      `SELECT json_build_array(${parts.join(', ')}, (SELECT count(*) FROM record_history)) AS all`,
    );
    return JSON.stringify(row?.all);
  };

  it('lists what was taken in, and asks for a reason', async () => {
    expect(await past()).toEqual([]);
    await take(wrong, 'wrong.csv');
    const [first] = await past();
    expect(first).toMatchObject({
      fileName: 'wrong.csv',
      fish: 4,
      spawns: 1,
      lines: 1,
      scores: 4,
      traits: 1,
      takenBackAt: null,
    });
    // A file that makes nothing leaves nothing to take back.
    expect(await take(wrong, 'again.csv')).toMatchObject({ fish: 0, unchanged: 4 });
    expect(await past()).toHaveLength(1);
    const refused = await api.send(BACK, { id: first!.id, reason: '  ' });
    expect(refused.errors?.[0]?.extensions.code).toBe('VALIDATION');
    expect(await look(first!.id)).toEqual({
      ready: true,
      resting: [],
      changed: 0,
      changedNames: [],
    });
  });

  it('is refused as a whole while a later record depends on it, naming what and where', async () => {
    const [{ id } = { id: '' }] = await past();
    const [sire, dam] = [await fish('S'), await fish('Y2')];
    const { planPairing } = await api.graphql<{ planPairing: { id: string } }>(PAIR, {
      input: { sireId: sire!.id, damId: dam!.id, plannedOn: '2025-01-01', confirmed: true },
    });
    await take(
      'tag,sire,dam,sex,hatch_date,line,length\nZ,Y1,Y2,,2025-01-01,RED,12\n',
      'young.csv',
    );
    await api.graphql(DECIDE, { input: { id: dam!.id, disposition: 'HOLD', on: '2025-01-01' } });
    const state = await look(id);
    expect(state).toEqual({
      ready: false,
      resting: [
        { kind: 'FISH', count: 1, names: ['Z'] },
        { kind: 'PAIRING', count: 1, names: ['S', 'Y2'] },
        { kind: 'SCORE', count: 1, names: ['length'] },
        { kind: 'SPAWN', count: 1, names: ['RED-S0002'] },
      ],
      changed: 1,
      changedNames: ['Y2'],
    });
    const before = await inUse();
    const refused = await api.send(BACK, { id, reason: 'wrong dates' });
    expect(refused.errors?.[0]?.extensions.code).toBe('IN_USE');
    expect(refused.errors?.[0]?.message).toMatch(/4 later records depend.*fish \(1\): Z/);
    expect(await inUse()).toBe(before);
    await api.graphql(UNPAIR, { input: { id: planPairing.id, reason: 'a mistake' } });
  });

  it('goes in steps: the later file first, then the earlier one, and the tags are free again', async () => {
    const [young, first] = await past();
    expect(young?.fileName).toBe('young.csv');
    const before = (await fish('S'))!;
    await api.graphql(BACK, { id: young!.id, reason: 'belongs to the wrong file' });
    expect(await fish('Z')).toBeNull();
    expect(await look(first!.id)).toMatchObject({ ready: true, changed: 1 });
    const back = await api.graphql<{ takeBackImport: object }>(BACK, {
      id: first!.id,
      reason: 'wrong dates',
    });
    expect(back.takeBackImport).toMatchObject({ takenBackReason: 'wrong dates' });
    const left: { n: number }[] = await db.query(
      `SELECT (SELECT count(*) FROM fish WHERE withdrawn_at IS NULL) + (SELECT count(*) FROM spawn WHERE withdrawn_at IS NULL)
        + (SELECT count(*) FROM line WHERE withdrawn_at IS NULL) + (SELECT count(*) FROM trait_definition WHERE withdrawn_at IS NULL)
        + (SELECT count(*) FROM score WHERE withdrawn_at IS NULL) AS n`,
    );
    expect(Number(left[0]?.n)).toBe(0);
    const tag = `S~${before.id.slice(0, 8)}`;
    expect(await fish(tag)).toMatchObject({
      id: before.id,
      withdrawn: { reason: 'wrong dates' },
      history: [
        {
          action: 'withdrawn',
          changes: expect.arrayContaining([
            { field: 'tag', before: 'S', after: tag },
            { field: 'withdrawnReason', before: null, after: 'wrong dates' },
          ]) as unknown,
        },
        { action: 'imported' },
      ],
    });
    const twice = await api.send(BACK, { id: first!.id, reason: 'again' });
    expect(twice.errors?.[0]?.extensions.code).toBe('VALIDATION');
    expect((await api.send(LOOK, { id: first!.id })).errors?.[0]?.extensions.code).toBe(
      'VALIDATION',
    );
  });

  it('takes the corrected file in with the same tags, line code, spawn tag and trait', async () => {
    expect(await take(right, 'right.csv')).toEqual({
      fish: 4,
      spawns: 2,
      lines: 1,
      scores: 4,
      traits: 1,
      unchanged: 0,
    });
    expect(await fish('Y2')).toMatchObject({ withdrawn: null, line: { code: 'RED' } });
    const tags: { tag: string }[] = await db.query(
      `SELECT tag FROM spawn WHERE withdrawn_at IS NULL ORDER BY tag`,
    );
    expect(tags.map(({ tag }) => tag)).toEqual(['RED-S0001', 'RED-S0002']);
    const keys = await db.query(`SELECT key FROM trait_definition WHERE withdrawn_at IS NULL`);
    expect(keys).toEqual([{ key: 'length' }]);
  });

  it('frees the tag of a fish withdrawn by hand before, keeping that reason', async () => {
    const [now] = await past();
    const young = (await fish('Y1'))!;
    await api.graphql(WITHDRAW_FISH, { input: { id: young.id, reason: 'seen twice' } });
    await api.graphql(BACK, { id: now!.id, reason: 'once more' });
    expect(await fish(`Y1~${young.id.slice(0, 8)}`)).toMatchObject({
      withdrawn: { reason: 'seen twice' },
    });
    expect(await take(right, 'third.csv')).toMatchObject({ fish: 4 });
  });

  it('knows every kind of record that can point to an import', async () => {
    const [{ id } = { id: '' }] = await past();
    const [a, y] = [(await fish('S'))!, (await fish('Y1'))!];
    const write = (table: string, values: Record<string, unknown>) => {
      const all = { id: crypto.randomUUID(), ...values };
      const names = Object.keys(all).map((name) => `"${name}"`);
      return db.query(
        `INSERT INTO "${table}" (${names.join(', ')}) VALUES (${names.map((_, k) => `$${k + 1}`).join(', ')})`,
        Object.values(all),
      );
    };
    const on = '2025-01-01';
    const spawn = { spawn_id: y.spawn!.id };
    await write('genotype', { fish_id: a.id, locus_id: 'x', genotype: 'X', basis: 'assumed' });
    await write('phenotype', { fish_id: a.id, locus_id: 'x', phenotype: 'X', seen_on: on });
    const picture = { media_type: 'image/png', bytes: 1, width: 1, height: 1, sha256: 'x' };
    await write('photo', { subject_kind: 'fish', subject_id: a.id, fish_id: a.id, ...picture });
    await write('spawn_event', { ...spawn, kind: 'spawned', at: on });
    await write('spawn_count', { ...spawn, stage: 'eggs', counted_on: on, number: 3 });
    await write('spawn_loss', { ...spawn, kind: 'died', on_date: on, number: 1, reason: 'x' });
    const classes = { locus_ids: ['x'], phenotype: 'x', number: 1, counted_on: on };
    await write('class_count', { ...spawn, ...classes });
    await write('care_record', { ...spawn, step: 'x', at: on, action: 'done' });
    const { person_id } = (
      (await db.query(`SELECT person_id FROM fish LIMIT 1`)) as [{ person_id: string }]
    )[0];
    await write('water_reading', { ...spawn, person_id, taken_at: on });
    await write('locus_setting', { line_id: a.line.id, locus_id: 'x' });
    await write('care_template', {
      person_id,
      line_id: a.line.id,
      name: 'x',
      steps: '[]',
    });
    const sheetId = crypto.randomUUID();
    await write('score_sheet', { id: sheetId, person_id, name: 'Show' });
    const [trait] = (await db.query(
      `SELECT id FROM trait_definition WHERE withdrawn_at IS NULL`,
    )) as [{ id: string }];
    const lines = JSON.stringify([{ traitId: trait.id }]);
    await db.query(
      `INSERT INTO score_sheet_version (sheet_id, version, lines, faults, deductions) VALUES ($1, 1, $2, '[]', '[]')`,
      [sheetId, lines],
    );
    await write('sheet_scoring', {
      fish_id: a.id,
      sheet_id: sheetId,
      sheet_version: 1,
      scored_on: on,
      scorer: 'x',
      fault_ids: '[]',
    });
    const { resting } = (await look(id)) as { resting: { kind: string; names: string[] }[] };
    expect(Object.fromEntries(resting.map(({ kind, names }) => [kind, names]))).toEqual({
      CARE_RECORD: ['RED-S0001'],
      CARE_TEMPLATE: ['RED'],
      CLASS_COUNT: ['RED-S0001'],
      GENOTYPE: ['S'],
      LOCUS_SETTING: ['RED'],
      PHENOTYPE: ['S'],
      PHOTO: ['S'],
      SCORE_SHEET: ['Show'],
      SHEET_SCORING: ['S'],
      SPAWN_COUNT: ['RED-S0001'],
      SPAWN_EVENT: ['RED-S0001'],
      SPAWN_LOSS: ['RED-S0001'],
      WATER_READING: ['RED-S0001'],
    });
  });

  it('finds the imports made before they were noted, from the history', async () => {
    const [noted] = await past();
    const before = await look(noted!.id);
    await db.transaction(async (manager) => {
      await manager.query(`DROP TABLE past_import_record, past_import`);
      await manager.query('ALTER TABLE person RENAME TO keeper');
      await new PastImports1764123000000().up(manager.queryRunner!);
      // What later changes of the schema made of it.
      await manager.query('ALTER TABLE keeper RENAME TO person');
      await manager.query('ALTER TABLE past_import RENAME keeper_id TO person_id');
      await manager.query(
        'ALTER TABLE past_import ADD by_account_id uuid, ADD taken_back_by_account_id uuid',
      );
    });
    const all = await past();
    expect(all).toHaveLength(4);
    expect(all[0]).toMatchObject({ fileName: null, fish: 4, spawns: 2, lines: 1, scores: 4 });
    expect(await look(all[0]!.id)).toEqual(before);
  });
});
