import { randomUUID } from 'node:crypto';
import {
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { ZipFile } from 'yazl';
import { asSystem } from '../../apps/api/src/access/acting.js';
import { carriedTables, leftOut } from '../../apps/api/src/backup/carried-tables.js';
import { beginBackup } from '../../apps/api/src/backup/make-backup.js';
import { openBackup, verifyBackup } from '../../apps/api/src/backup/read-backup.js';
import { backUp, dataSourceOf, never, photosOf, restore } from './back-up.js';
import { type Entries, manifestOf, readZip, sealed, writeZip } from './backup-files.js';
import { fillEveryTable } from './every-table.js';
import { PASSWORD, recordsOf, type RunningApi, startApi } from './harness.js';
import { picturesOf, rowsOf } from './whole-install.js';
import { now } from '../clock.js';
import { creation, newRecords } from '../new-records.js';

/** Fish of one person that swim with another: whose record it is does not tell where it is. */
const AWAY = `SELECT tag, person_id, swims_with_id FROM fish
  WHERE swims_with_id <> person_id AND disposition = 'placed' ORDER BY tag`;

/**
 * The vessels of readings, as they were typed before vessels were records: in the copy of the table, every second in capitals and with
 * spaces.
 *
 * @returns the codes as typed, those of one vessel together.
 */
const withWrittenVessels = (
  { tables }: ReturnType<typeof manifestOf>,
  files: Map<string, Buffer>,
): Map<string, Set<string>> => {
  const columnsOf = (table: string) => tables.find((part) => part.table === table)!.columns;
  const linesOf = (table: string) =>
    (files.get(`tables/${table}.copy`) ?? Buffer.alloc(0)).toString().split('\n');
  const [idAt, codeAt] = ['id', 'code'].map((name) => columnsOf('vessel').indexOf(name));
  const codes = new Map(
    linesOf('vessel').map((line) => [line.split('\t')[idAt!], line.split('\t')[codeAt!]]),
  );
  const [vesselAt, wordAt] = ['vessel_id', 'vessel'].map((name) =>
    columnsOf('water_reading').indexOf(name),
  );
  const spelt = new Map<string, Set<string>>();
  const lines = linesOf('water_reading').map((line, k) => {
    const cells = line.split('\t');
    const code = codes.get(cells[vesselAt!]);
    if (code === undefined) return line;
    const typed = k % 2 === 0 ? code : ` ${code.toUpperCase()}`.replace(/(\d)/, ' $1 ').trim();
    spelt.set(code, (spelt.get(code) ?? new Set()).add(typed));
    cells[wordAt!] = typed;
    return cells.join('\t');
  });
  files.set('tables/water_reading.copy', Buffer.from(lines.join('\n')));
  return spelt;
};

/** The rows of readings and vessels of an install that read them out of typed words, once they are found to be what was typed. */
const waterInVessels = async (api: RunningApi, spelt: Map<string, Set<string>>) => {
  const rows = (await (
    await recordsOf(api)
  ).query(
    `SELECT v.code, v.note, array_agg(DISTINCT w.vessel) AS typed FROM vessel v JOIN water_reading w ON w.vessel_id = v.id
     GROUP BY v.id, v.code, v.note`,
  )) as { code: string; note: string | null; typed: string[] }[];
  expect(rows.map(({ typed }) => typed.toSorted()).toSorted()).toEqual(
    [...spelt.values()].map((typed) => [...typed].toSorted()).toSorted(),
  );
  // No spelling is lost: one is the code, the others stand in the note.
  for (const { code, note, typed } of rows)
    for (const one of typed) expect(one === code || note?.includes(one)).toBe(true);
  expect(rows.some(({ typed }) => typed.length > 1)).toBe(true);
  const { vessel, water_reading } = await rowsOf(api);
  expect(vessel).toHaveLength(rows.length);
  return { vessel, water_reading };
};

const addPhoto = async (api: RunningApi, fishId: string): Promise<string> => {
  const id = randomUUID();
  const png = await sharp({
    create: { width: 640, height: 480, channels: 3, background: { r: 20, g: 90, b: 160 } },
  })
    .png()
    .toBuffer();
  const response = await api.http(`/photos/${id}?kind=fish&of=${fishId}&taken=2026-03-14`, {
    method: 'PUT',
    body: new Uint8Array(png),
    headers: { 'content-type': 'image/png', origin: api.url },
  });
  if (!response.ok) throw new Error(await response.text());
  return id;
};

let folder = '';
let source: RunningApi;
let file = '';
let entries: Entries;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'linewright-backup-'));
  source = await startApi({ demo: true });
  await source.graphql(`mutation { setPassword(password: "${PASSWORD}") { signedIn } }`);
  const { fishList } = await source.graphql<{
    fishList: { edges: { node: { id: string; revision: number } }[] };
  }>('{ fishList(first: 3) { edges { node { id revision } } } }');
  const [one, two] = fishList.edges.map((edge) => edge.node);
  await source.graphql(
    'mutation ($input: CorrectFishInput!) { correctFish(input: $input) { id } }',
    {
      input: {
        id: one?.id,
        revision: one?.revision,
        note: 'tab\there, back\\slash, "quote",\nnew line, ปลากัด, 🐟',
        entryId: randomUUID(),
      },
    },
  );
  const { createFish } = await source.graphql<{ createFish: { id: string; revision: number } }>(
    creation('createFish', 'id revision'),
    { input: { tag: 'BACKUP-1', sex: 'UNSEXED' } },
  );
  await addPhoto(source, createFish.id);
  const gone = await addPhoto(source, two?.id ?? '');
  await source.graphql(
    'mutation ($input: WithdrawInput!) { withdrawPhoto(input: $input) { id } }',
    {
      input: { id: gone, revision: 1, reason: 'blurred' },
    },
  );
  await source.graphql('mutation ($input: WithdrawInput!) { withdrawFish(input: $input) { id } }', {
    input: { ...createFish, reason: 'written down twice' },
  });
  await fillEveryTable(source);
  file = await backUp(source, folder);
  entries = await readZip(file);
});
afterAll(async () => {
  await source.close();
  rmSync(folder, { recursive: true, force: true });
});

const withFresh = async (work: (fresh: RunningApi) => Promise<void>): Promise<void> => {
  const fresh = await startApi({ signedIn: false });
  try {
    await work(fresh);
  } finally {
    await fresh.close();
  }
};

describe('the tables of a backup', () => {
  it('are all of the schema, save those that are left out by name and with a reason', async () => {
    const tables = (await (
      await recordsOf(source)
    ).query(
      `SELECT relname AS name FROM pg_class WHERE relkind IN ('r', 'p') AND relnamespace = current_schema()::regnamespace`,
    )) as { name: string }[];
    const known = [...carriedTables(dataSourceOf(source)), ...Object.keys(leftOut)].sort();
    expect(tables.map((table) => table.name).sort()).toEqual(known);
    for (const reason of Object.values(leftOut)) expect(reason.length).toBeGreaterThan(10);
  });
});

describe('a backup', () => {
  it('is read again once it is written: what is not as it was meant is not kept, and told', async () => {
    const before = readdirSync(folder);
    vi.spyOn(ZipFile.prototype, 'addBuffer').mockImplementationOnce(function (
      this: ZipFile,
      bytes,
      ...more
    ) {
      // As a disk that keeps something else.
      const other = Buffer.from(bytes);
      other[20] = (other[20] ?? 0) ^ 1;
      this.addBuffer(other, ...more);
    });
    try {
      await expect(backUp(source, folder)).rejects.toMatchObject({
        code: 'BACKUP_FAILED',
        message: expect.stringMatching(/was altered/) as unknown,
      });
    } finally {
      vi.restoreAllMocks();
    }
    expect(readdirSync(folder)).toEqual(before);
  });
});

describe('a restore into a fresh install', () => {
  it('brings back every row of every table and every picture, and the way in', async () => {
    const before = await rowsOf(source);
    const pictures = picturesOf(source);
    // What is to be brought back is there at all.
    expect(Object.keys(before).filter((table) => before[table]?.length === 0)).toEqual([]);
    const swimElsewhere: unknown = await (await recordsOf(source)).query(AWAY);
    expect(swimElsewhere).not.toEqual([]);
    expect(Object.keys(pictures).length).toBeGreaterThan(3);
    await withFresh(async (fresh) => {
      await restore(fresh, file);
      expect(await rowsOf(fresh)).toEqual(before);
      expect(picturesOf(fresh)).toEqual(pictures);
      expect(await (await recordsOf(fresh)).query(AWAY)).toEqual(swimElsewhere);
      const { signIn } = await fresh.graphql<{ signIn: { signedIn: boolean } }>(
        `mutation { signIn(password: "${PASSWORD}") { signedIn } }`,
      );
      expect(signIn.signedIn).toBe(true);
      // Numbers given by the database go on: a new record is told in the history.
      await newRecords(fresh).createLine({ code: 'NEXT', name: 'Next' });
      await expect(restore(fresh, file)).rejects.toMatchObject({
        code: 'DATABASE_NOT_EMPTY',
        message: expect.stringMatching(/fish.*DATA_DIR/) as unknown,
      });
    });
  });

  it('is allowed where there is an owner and no record, who then is the one of the backup', async () => {
    const fresh = await startApi();
    try {
      await restore(fresh, file);
      expect(await rowsOf(fresh)).toEqual(await rowsOf(source));
    } finally {
      await fresh.close();
    }
  });

  it('takes a backup of an older schema, which then goes on to the one of today', async () => {
    const manifest = manifestOf(entries);
    const older = new Map(entries);
    // What those schema changes added, taken out again.
    const later = [
      ...['Backups', 'TheDoor', 'PeopleAndCareRecords', 'PeopleWithAccounts', 'LineGrants'],
      ...[
        'WaysIn',
        'NamedAncestors',
        'PartnerInstalls',
        'OwnData',
        'ExchangeTold',
        'HandOvers',
        'Keepers',
        'Club',
      ],
      'TagsOfHandOvers',
      'MakersOfPairs',
      ...['FishClaims', 'WhatCame', 'AnsweredRequests', 'HouseholdOfKeepers'],
      ...['ImportShapes', 'HistoryByKind', 'ClaimsBetweenInstalls', 'OrdersOfLists', 'FishDeals'],
      'HomeNetwork',
      ...['Vessels', 'SavedSearches', 'ShowResults'],
    ];
    const tablesAdded = [
      ...[
        'line_grant',
        'passkey',
        'partner_install',
        'erased_record',
        'hand_over',
        'kept_line',
        'fish_claim',
        'fish_deal',
        'show_result',
        'import_shape',
        'vessel',
        'vessel_stay',
        'saved_search',
      ],
      ...['club_line', 'club_figure', 'club_request', 'comment'],
    ];
    const spelt = withWrittenVessels(manifest, older);
    const added = [
      'vessel_id',
      ...['program_version', 'role', 'by_account_id', 'taken_back_by_account_id', 'erased_at'],
      'maker_id',
      'home_network',
    ];
    // Made after them, and by whom it was said from the first.
    const made = ['line_purpose', 'round', 'round_pair', 'line_route', 'record_stamp'];
    const asItWas = (name: string): string =>
      name.replace('person', 'keeper').replace('care_record', 'care_entry');
    let [taken, renamed] = [0, 0];
    const tables = manifest.tables
      .filter(({ table }) => !tablesAdded.includes(table))
      .map((part) => {
        const at = part.columns.flatMap((name, place) => (added.includes(name) ? [place] : []));
        if (made.includes(part.table)) return part;
        if (at.length === 0) return part;
        taken += at.length;
        const without = <Cell>(cells: readonly Cell[]): Cell[] =>
          cells.filter((_, place) => !at.includes(place));
        const file = `tables/${part.table}.copy`;
        const lines = (older.get(file) ?? Buffer.alloc(0)).toString().split('\n');
        const left = lines.map((line) => without(line.split('\t')).join('\t'));
        older.set(file, Buffer.from(left.join('\n')));
        return { ...part, columns: without(part.columns) };
      })
      .map((part) => {
        const before = { ...part, table: asItWas(part.table), columns: part.columns.map(asItWas) };
        const bytes = older.get(`tables/${part.table}.copy`) ?? Buffer.alloc(0);
        older.delete(`tables/${part.table}.copy`);
        const kept = made.includes(part.table)
          ? bytes.toString()
          : bytes.toString().replaceAll('\tcare_record\t', '\tcare_entry\t');
        if (kept !== bytes.toString()) renamed++;
        older.set(`tables/${before.table}.copy`, Buffer.from(kept));
        return before;
      });
    for (const table of tablesAdded) older.delete(`tables/${table}.copy`);
    expect(taken).toBeGreaterThan(4);
    expect(renamed).toBeGreaterThan(0);
    const changes = manifest.changes.filter((name) => !later.some((one) => name.startsWith(one)));
    const olderFile = join(folder, 'older.zip');
    await writeZip(olderFile, [...sealed(older, { ...manifest, changes, tables })]);
    await withFresh(async (fresh) => {
      await restore(fresh, olderFile);
      const now = await rowsOf(source);
      expect(await rowsOf(fresh)).toEqual({
        ...now,
        ...Object.fromEntries(tablesAdded.map((table) => [table, []])),
        ...(await waterInVessels(fresh, spelt)),
        // Nobody but the owner had an account then.
        person: now['person']?.map((row) =>
          row.replace(/"role": "(partner|keeper)"/, '"role": null'),
        ),
      });
      const { upQueries } = await (await recordsOf(fresh)).driver.createSchemaBuilder().log();
      expect(upQueries).toEqual([]);
    });
  });
});

describe('a file that is not as it was written', () => {
  let fresh: RunningApi;
  beforeAll(async () => {
    fresh = await startApi({ signedIn: false });
  });
  afterAll(() => fresh.close());

  const refused = async (name: string, code = 'BACKUP_DAMAGED', words = /Nothing was changed/) => {
    const before = await rowsOf(fresh);
    await expect(restore(fresh, join(folder, name))).rejects.toMatchObject({
      code,
      message: expect.stringMatching(words) as unknown,
    });
    expect(await rowsOf(fresh)).toEqual(before);
    expect(picturesOf(fresh)).toEqual({});
  };

  it('cut off anywhere, it is refused', async () => {
    const { size } = statSync(file);
    for (const [index, share] of [0.2, 0.6, 0.999].entries()) {
      const cut = join(folder, `cut-${index}.zip`);
      writeFileSync(cut, readFileSync(file));
      truncateSync(cut, Math.floor(size * share));
      await expect(verifyBackup(cut)).rejects.toMatchObject({ code: 'BACKUP_DAMAGED' });
    }
    await refused('cut-2.zip');
  });

  it('with any byte altered, it is refused or nothing that counts was altered', async () => {
    const bytes = readFileSync(file);
    const altered = join(folder, 'altered.zip');
    let refusals = 0;
    for (let at = 100; at < bytes.length; at += Math.floor(bytes.length / 23)) {
      const copy = Buffer.from(bytes);
      copy[at] = (copy[at] ?? 0) ^ 0x55;
      writeFileSync(altered, copy);
      const failed = await verifyBackup(altered).then(
        () => null,
        (error: unknown) => error,
      );
      if (failed !== null) {
        expect(failed).toMatchObject({ code: 'BACKUP_DAMAGED' });
        refusals++;
      }
    }
    expect(refusals).toBeGreaterThan(20);
  });

  it('with rows that do not fit together, sealed anew, it is refused and nothing is kept', async () => {
    const without = new Map(entries);
    without.set('tables/spawn.copy', Buffer.alloc(0));
    await writeZip(join(folder, 'torn.zip'), [...sealed(without, manifestOf(entries))]);
    await refused('torn.zip', 'BACKUP_DAMAGED', /do not fit together/);
  });

  it('made by a newer program, it is refused by name', async () => {
    const manifest = manifestOf(entries);
    const newer = {
      ...manifest,
      program: '9.8.7',
      changes: [...manifest.changes, 'FarAhead1999999999999'],
    };
    await writeZip(join(folder, 'newer.zip'), [...sealed(entries, newer)]);
    await refused('newer.zip', 'BACKUP_NEWER', /9\.8\.7.*FarAhead1999999999999.*newer version/);
  });

  it('with names that lead out of the folder, doubled, or not in the manifest, it is refused', async () => {
    const list = [...entries];
    await writeZip(join(folder, 'slip.zip'), [...list, ['../../evil', Buffer.from('x')]]);
    await refused('slip.zip', 'BACKUP_DAMAGED');
    await writeZip(join(folder, 'twice.zip'), [...list, list[0] ?? ['', Buffer.alloc(0)]]);
    await expect(openBackup(join(folder, 'twice.zip'))).rejects.toMatchObject({
      message: expect.stringMatching(/twice/) as unknown,
    });
    await writeZip(join(folder, 'more.zip'), [...list, ['photos/extra', Buffer.from('x')]]);
    await expect(openBackup(join(folder, 'more.zip'))).rejects.toMatchObject({
      message: expect.stringMatching(/photos\/extra/) as unknown,
    });
    const manifest = manifestOf(entries);
    const sly = {
      ...manifest.tables[0]!,
      table: 'migration',
      columns: ['id', 'timestamp', 'name'],
    };
    await writeZip(join(folder, 'sly.zip'), [
      ...sealed(new Map([...entries, ['tables/migration.copy', Buffer.from('9\t9\tx\n')]]), {
        ...manifest,
        tables: [...manifest.tables, sly],
      }),
    ]);
    await refused('sly.zip', 'BACKUP_DAMAGED', /migration/);
  });

  it('that would unpack without end, it is refused before it is unpacked', async () => {
    const zeros = Buffer.alloc(200_000_000);
    await writeZip(join(folder, 'bomb.zip'), [['tables/fish.copy', zeros]]);
    expect(statSync(join(folder, 'bomb.zip')).size).toBeLessThan(300_000);
    await expect(openBackup(join(folder, 'bomb.zip'))).rejects.toMatchObject({
      code: 'BACKUP_DAMAGED',
      message: expect.stringMatching(/unpack/) as unknown,
    });
  });

  it('that is none, or not there, it is told so', async () => {
    writeFileSync(join(folder, 'plain.zip'), 'tag,sire,dam\n');
    await refused('plain.zip');
    await expect(openBackup(join(folder, 'nowhere.zip'))).rejects.toMatchObject({
      code: 'NOT_FOUND',
    });
  });
});

describe('while others write', () => {
  it('it holds one moment: every record with its history', async () => {
    const api = await startApi();
    let writing = true;
    let made = 0;
    const writer = (async () => {
      for (; writing; made++)
        await newRecords(api).createLine({ code: `W${made}`, name: `Line ${made}` });
    })();
    try {
      await expect.poll(() => made).toBeGreaterThan(3);
      const taken = await backUp(api, folder);
      await expect.poll(() => made).toBeGreaterThan(6);
      writing = false;
      await writer;
      await withFresh(async (fresh) => {
        await restore(fresh, taken);
        const [count] = (await (
          await recordsOf(fresh)
        ).query(
          `SELECT (SELECT count(*)::int FROM line) AS lines, (SELECT count(*)::int FROM record_history) AS told`,
        )) as { lines: number; told: number }[];
        expect(count?.lines).toBeGreaterThan(0);
        expect(count?.told).toBe(count?.lines);
      });
    } finally {
      writing = false;
      await writer.catch(() => undefined);
      await api.close();
    }
  });

  it('no second one begins, and one that fails is told with the remedy', async () => {
    const order = {
      dataSource: dataSourceOf(source),
      photos: photosOf(source),
      kind: 'shell' as const,
      folder,
      zone: 'UTC',
      now: () => new Date(now()),
      signal: never,
    };
    const begin = (one: typeof order) => asSystem('backup', () => beginBackup(one));
    const first = await begin(order);
    await expect(begin(order)).rejects.toMatchObject({ code: 'BACKUP_BUSY' });
    await first?.done;
    const blocked = join(folder, 'blocked');
    writeFileSync(blocked, '');
    const failing = await begin({ ...order, folder: blocked });
    await expect(failing?.done).rejects.toMatchObject({
      code: 'BACKUP_FAILED',
      message: expect.stringMatching(/BACKUP_DIR/) as unknown,
    });
    expect(readdirSync(folder).filter((name) => name.startsWith('.unfinished'))).toEqual([]);
  });

  it('is not written while a policy could leave rows out of it', async () => {
    const records = await recordsOf(source);
    await records.query('ALTER POLICY door_whole ON score RENAME TO some_of_it');
    try {
      await expect(backUp(source, folder)).rejects.toThrow(/Rows of score could be hidden/);
    } finally {
      await records.query('ALTER POLICY some_of_it ON score RENAME TO door_whole');
    }
    await backUp(source, folder);
  });

  it('a picture whose file is gone is told, and the rest is kept', async () => {
    const [first] = Object.keys(picturesOf(source)).filter((name) => !name.endsWith('.small'));
    const path = join(photosOf(source).folder, first ?? '');
    const bytes = readFileSync(path);
    rmSync(path);
    try {
      const manifest = await verifyBackup(await backUp(source, folder));
      expect(manifest.photosAmiss).toEqual([first?.split('/').at(-1)]);
    } finally {
      writeFileSync(path, bytes);
    }
  });
});
