import { writeOds } from 'hucre/ods';
import { writeXlsx } from 'hucre/xlsx';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { messyWorkbook } from '../messy-sheet.js';
import { recordsOf, type RunningApi, startApi } from './harness.js';

const REPAIRS = `dayOrder separator unmarked answers { code column answer count } values { column from to }
  cells { line column to } leftOut fish`;
const LOOK = `mutation ($text: String!, $columns: [ImportColumnInput!], $repairs: ImportRepairsInput) {
  previewImport(fileName: "sheet.xlsx", text: $text, columns: $columns, repairs: $repairs) {
    ready rowCount newFish problemCount unmarked separator newLines days { open order proof } remembered { fileName }
    columns { header role traitName }
    causes { code column count title answers offered values { value lines row offers } }
    doubts { code column count answers values { value offers } }
    repairs { ${REPAIRS} } } }`;
const TAKE = `mutation ($text: String!, $columns: [ImportColumnInput!]!, $repairs: ImportRepairsInput) {
  confirmImport(fileName: "sheet.xlsx", text: $text, columns: $columns, repairs: $repairs) { fish lines scores skippedRows } }`;

interface Answer {
  code: string;
  column: string | null;
  answer: string;
}

type Sent = Record<string, unknown> & { answers: Answer[] };

interface Cause {
  code: string;
  column: string | null;
  count: number;
  title: string;
  answers: string[];
  offered: number;
  values: { value: string | null; lines: number[]; row: string; offers: string[] }[];
}

interface Preview {
  ready: boolean;
  rowCount: number;
  newFish: number;
  problemCount: number;
  unmarked: number;
  separator: string;
  newLines: string[];
  days: { open: number; order: string | null; proof: string | null } | null;
  remembered: { fileName: string } | null;
  columns: { header: string; role: string; traitName: string | null }[];
  causes: Cause[];
  doubts: Cause[];
  repairs: Record<string, unknown> & { answers: (Answer & { count: number })[] };
}

interface Sheets {
  sheets: { name: string; text: string; rows: number; notes: string[] }[];
}

describe('the repair desk', () => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi();
  });
  afterAll(() => api.close());

  const look = async (text: string, more: object = {}): Promise<Preview> =>
    (await api.graphql<{ previewImport: Preview }>(LOOK, { text, ...more })).previewImport;
  const send = (bytes: Uint8Array, headers: Record<string, string> = {}): Promise<Response> =>
    api.http('/workbook-sheets', {
      method: 'POST',
      headers: { 'content-type': 'application/octet-stream', ...headers },
      body: Buffer.from(bytes),
    });
  const opened = async (bytes: Uint8Array): Promise<Sheets['sheets']> => {
    const answer = await send(bytes);
    expect(answer.status).toBe(200);
    return ((await answer.json()) as Sheets).sheets;
  };
  const refused = async (bytes: Uint8Array): Promise<string> => {
    const answer = await send(bytes);
    expect(answer.status).toBeGreaterThanOrEqual(400);
    expect(answer.status).toBeLessThan(500);
    return ((await answer.json()) as { message: string }).message;
  };
  /** The repairs as they are sent back. */
  const asSent = ({ answers, ...rest }: Preview['repairs']): Sent => ({
    ...rest,
    answers: answers.map(({ code, column, answer }) => ({ code, column, answer })),
  });

  let text = '';

  it('opens the sheet of a workbook as the CSV file it would be saved as', async () => {
    const sheets = await opened(await messyWorkbook());
    expect(sheets.map(({ name, rows }) => [name, rows])).toEqual([
      ['Notes', 1],
      ['Fish', 304],
    ]);
    text = sheets[1]?.text ?? '';
  });

  it('takes in 300 messy rows with a dozen decisions, each for all rows it concerns', async () => {
    let preview = await look(text);
    expect(preview.columns.map(({ role }) => role)).toEqual([
      ...['TAG', 'NAME', 'SIRE', 'DAM', 'SEX', 'HATCH_DATE', 'LINE', 'DISPOSITION'],
      ...['ORIGIN', 'KEEPER', 'NOTE', 'TRAIT'],
    ]);
    const first = preview.problemCount;
    const [order] = preview.causes;
    expect(order?.code).toBe('IMPORT_DATE_ORDER');
    expect(order?.title).toMatch(/^\d{3} dates: which comes first, the day or the month\?$/);
    const columns = preview.columns.map(({ header, role, traitName }) => ({
      header,
      role,
      traitName,
    }));
    const decisions: string[] = [];
    while (!preview.ready && decisions.length < 40) {
      const repairs = asSent(preview.repairs);
      const [cause] = preview.causes;
      if (cause === undefined) throw new Error('Not ready, and nothing to decide.');
      if (cause.code === 'IMPORT_DATE_ORDER') repairs['dayOrder'] = 'DAY_FIRST';
      else {
        const [answer] = cause.answers;
        if (answer === undefined) throw new Error(`Nothing can be answered to ${cause.title}`);
        repairs.answers.push({ code: cause.code, column: cause.column, answer });
      }
      decisions.push(cause.title);
      preview = await look(text, { columns, repairs });
    }
    const near = preview.doubts.find(({ code }) => code === 'IMPORT_NEAR_LINE');
    expect(near?.values[0]).toMatchObject({ value: 'BLU', offers: ['BLUE'] });
    const bare = preview.doubts.find(({ code }) => code === 'IMPORT_ONLY_TAG');
    expect(bare?.values[0]?.value).toBe('seen by the vet');
    const repairs = asSent(preview.repairs);
    repairs.answers.push({ code: 'IMPORT_NEAR_LINE', column: 'Strain', answer: 'OFFER' });
    repairs['leftOut'] = [304];
    decisions.push('Lines spelt nearly alike', 'A remark under the table');
    preview = await look(text, { columns, repairs });
    process.stdout.write(
      `${JSON.stringify({ measured: 'messy sheet of 300 rows', problems: first, decisions: decisions.length, of: decisions })}\n`,
    );
    expect(first).toBeGreaterThan(300);
    expect(decisions.length).toBeLessThanOrEqual(14);
    expect(preview).toMatchObject({ ready: true, unmarked: expect.any(Number) as number });
    expect(preview.newLines.toSorted()).toEqual(['BLUE', 'RED', 'RED-DRAGON']);
    const taken = await api.graphql<{ confirmImport: { fish: number; skippedRows: number } }>(
      TAKE,
      {
        ...{ text, columns, repairs },
      },
    );
    // 300 of the sheet, and the parent that only stood in its young's rows.
    expect(taken.confirmImport).toMatchObject({ fish: 301, skippedRows: 1 });
  });

  it('records name, note, origin, place and what became of a fish, and days in the order said', async () => {
    const db = await recordsOf(api);
    const row = async (tag: string) =>
      (
        (await db.query(
          `SELECT name, note, origin, disposition, sex, hatch_date::text AS hatched, swims_with_id AS place FROM fish WHERE tag = $1`,
          [tag],
        )) as object[]
      )[0];
    expect(await row('R-001')).toMatchObject({
      ...{ name: 'Ruby', origin: 'a show', disposition: 'keeper', hatched: '2023-02-02' },
    });
    expect(await row('R-026')).toMatchObject({ sex: 'male', hatched: '2024-05-03' });
    expect(await row('R-065')).toMatchObject({
      ...{ note: 'wide fins Kept by A friend by the sea.', place: null },
    });
    expect(await row('OLD-7')).toMatchObject({ sex: 'male', disposition: 'unsorted' });
    expect(await row('R-091')).toMatchObject({ disposition: 'placed' });
  });

  it('keeps fish that are not marked as in use out of pairing until somebody says so', async () => {
    const db = await recordsOf(api);
    const counted = (await db.query(
      `SELECT disposition, count(*)::int AS n FROM fish GROUP BY 1 ORDER BY 1`,
    )) as { disposition: string; n: number }[];
    const byWord = Object.fromEntries(counted.map(({ disposition, n }) => [disposition, n]));
    expect(byWord['keeper']).toBe(20);
    expect(byWord['unsorted']).toBeGreaterThan(200);
    const [inUse] = (await db.query('SELECT count(*)::int AS n FROM fish_in_use')) as {
      n: number;
    }[];
    expect(inUse?.n).toBe(20);
    const all = 'tag,sex,status\nU-1,m,\nU-2,f,dead\n';
    await api.graphql(TAKE, { text: all, columns: [], repairs: { unmarked: 'KEEPER' } });
    expect(
      await db.query(`SELECT tag, disposition FROM fish WHERE tag LIKE 'U-%' ORDER BY tag`),
    ).toEqual([
      { tag: 'U-1', disposition: 'keeper' },
      { tag: 'U-2', disposition: 'died' },
    ]);
  });

  it('remembers what was decided for the next file of the same columns, and can be told not to', async () => {
    const next = [
      text.split('\n')[0]!,
      'N-1,,R-001,OLD-8,boy,5/6/2025,RED DRAGON,,,,,41 mm',
      'N-2,,R-001,R-002,f,6/6/2025,RED,,,,,38',
    ].join('\n');
    const preview = await look(next);
    expect(preview).toMatchObject({
      ...{ remembered: { fileName: 'sheet.xlsx' }, newFish: 2 },
      repairs: { dayOrder: 'DAY_FIRST', leftOut: [], cells: [] },
    });
    expect(preview.causes.map(({ code, column }) => [code, column])).toEqual([
      ['IMPORT_UNKNOWN_PARENT', 'Mother'],
    ]);
    const counted = preview.repairs.answers
      .filter(({ count }) => count > 0)
      .map(({ code }) => code);
    expect(counted.toSorted()).toEqual(['IMPORT_BAD_LINE', 'IMPORT_BAD_NUMBER', 'IMPORT_BAD_SEX']);
    const without = await look(next, { columns: [], repairs: {} });
    expect(without.remembered).toBeNull();
    expect(without.causes.length).toBeGreaterThan(3);
  });

  it('says the order that a day above twelve proves, and can be told another', async () => {
    const days = 'tag,hatched\nP-1,5/6/2024\nP-2,25/12/2024\n';
    expect((await look(days)).days).toEqual({ open: 1, order: 'DAY_FIRST', proof: '25/12/2024' });
    const other = await look(days, { columns: [], repairs: { dayOrder: 'MONTH_FIRST' } });
    expect(other.causes[0]).toMatchObject({
      ...{ code: 'IMPORT_BAD_DATE', offered: 1 },
      values: [{ value: '25/12/2024', offers: ['2024-12-25'], row: 'P-2 · 25/12/2024' }],
    });
  });

  it('mends one value everywhere, one cell in place, and leaves lines out', async () => {
    const rows = 'tag;sex;length\nA-1;boi;4,5\nA-2;boi;x\nA-3;f;y\nTotal;;9\n';
    const mended = await look(rows, {
      columns: [{ header: 'length', role: 'TRAIT' }],
      repairs: {
        values: [{ column: 'sex', from: 'boi', to: 'male' }],
        cells: [{ line: 3, column: 'length', to: '4,6' }],
        leftOut: [4],
        fish: [5],
      },
    });
    expect(mended).toMatchObject({ ready: true, separator: 'SEMICOLON', newFish: 3 });
  });

  it('takes the last value of a formula, tells of merged cells, and reads days and numbers as they are', async () => {
    const sheet = {
      name: 'Fish',
      rows: [
        ['tag', 'hatched', 'length', 'kept'],
        ['W-1', new Date(Date.UTC(2024, 2, 5)), 0.1 + 0.2, true],
        ['W-2', null, null, null],
      ],
      merges: [{ startRow: 1, startCol: 3, endRow: 2, endCol: 3 }],
      cells: new Map([['2,2', { value: 41.5, formula: 'C2*100', formulaResult: 41.5 }]]),
    };
    for (const write of [writeXlsx, writeOds]) {
      const [read] = await opened(await write({ sheets: [sheet] }));
      expect(read?.text).toBe('tag,hatched,length,kept\nW-1,2024-03-05,0.3,yes\nW-2,,41.5,\n');
      expect(read?.notes.join(' ')).toMatch(/1 cell holds a formula.*1 group of cells is merged/);
    }
    const [macros] = await opened(
      await writeXlsx({
        sheets: [{ name: 'A', rows: [['tag'], ['M-1']] }],
        vbaProject: new Uint8Array(64),
      }),
    );
    expect(macros?.notes).toEqual(['The workbook holds macros: they were not run.']);
  });

  it('refuses what is no workbook, is damaged, has a password or grows without end, and says what to do', async () => {
    const good = await writeXlsx({ sheets: [{ name: 'A', rows: [['tag'], ['M-1']] }] });
    expect(await refused(Buffer.from('tag,sex\nA,m\n'))).toContain('text file under another name');
    expect(await refused(good.subarray(0, good.length - 40))).toContain('only the beginning');
    const locked = await writeXlsx({
      sheets: [{ name: 'A', rows: [['tag']] }],
      encryption: { password: 'pond', spinCount: 1 },
    });
    expect(await refused(locked)).toContain('password');
    const wide = [Array.from({ length: 300 }, (_, k) => `c${k}`)];
    expect(await refused(await writeXlsx({ sheets: [{ name: 'A', rows: wide }] }))).toContain(
      'more than 200 columns',
    );
    const zeros = 'x'.repeat(30_000_000);
    const bomb = await writeXlsx({
      sheets: Array.from({ length: 5 }, (_, k) => ({ name: `S${k}`, rows: [[zeros]] })),
      stringMode: 'inline',
    });
    expect(bomb.length).toBeLessThan(2_000_000);
    const before = performance.now();
    expect(await refused(bomb)).toContain('unpack');
    expect(performance.now() - before).toBeLessThan(30_000);
    const elsewhere = await send(good, { 'sec-fetch-site': 'cross-site' });
    expect(elsewhere.status).toBe(403);
  });
});
