import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi } from './harness.js';

type Api = Awaited<ReturnType<typeof startApi>>;

const PREVIEW = `mutation ($text: String!, $columns: [ImportColumnInput!]) {
  previewImport(fileName: "fish.csv", text: $text, columns: $columns) {
    ready rowCount newFish knownFish newLines newSpawns scores problemCount
    columns { header role traitId traitName }
    problems { line column code value message remedy }
  }
}`;
const CONFIRM = `mutation ($text: String!, $columns: [ImportColumnInput!]!) {
  confirmImport(fileName: "fish.csv", text: $text, columns: $columns) { fish spawns lines scores traits unchanged }
}`;
const FISH = `query ($tag: String!) {
  fishByTag(tag: $tag) { tag sex hatchDate disposition line { code } sire { tag } dam { tag } spawn { tag }
    latestScores { value trait { name kind } } history { action } }
}`;

const inOurOrder = [
  'tag,sire,dam,sex,hatch_date,line,spawn,unrelated,length,marble',
  'D,,,female,2024-01-01,R,,yes,38.5,1',
  'S,,,male,2024-01-01,R,,yes,40,0',
  'P,,,female,2024-02-01,R,BAG-1,,,',
  'Q,,,male,2024-02-01,R,BAG-1,,,',
  'A,S,D,male,2024-06-01,R,R-S0001,,,',
  'B,S,D,female,2024-06-01,R,R-S0001,,41,',
  'C,S,,,2024-07-01,,SPAWN-S0001,,,',
  'X,Q,P,,2024-08-01,,SPAWN-S0002,,,',
  'E,A,B,uncertain,2025-01-01,R,R-S0002,,12.25,1',
  '',
].join('\n');
const reversed = ((lines) => [lines[0], ...lines.slice(1, -1).reverse(), ''].join('\r\n'))(
  inOurOrder.split('\n'),
);

describe('pedigree files', () => {
  let api: Api;
  beforeAll(async () => {
    api = await startApi();
  });
  afterAll(async () => {
    await api.close();
  });

  const ask = async (query: string, variables: Record<string, unknown>) => {
    const answer = await api.send(query, variables);
    return answer as unknown as {
      data?: Record<string, Record<string, unknown>> | null;
      errors?: { extensions: Record<string, unknown> }[];
    };
  };

  it('lists every bad row and writes nothing', async () => {
    const text = 'tag,sire,dam,sex,hatch_date\nX,,,boy,2025-02-30\nY,nobody,,,\n';
    const preview = (await ask(PREVIEW, { text })).data?.['previewImport'];
    expect(preview).toMatchObject({
      ready: false,
      problemCount: 3,
      problems: [
        { line: 2, column: 'sex', code: 'IMPORT_BAD_SEX', value: 'boy' },
        { line: 2, column: 'hatch_date', code: 'IMPORT_BAD_DATE', value: '2025-02-30' },
        { line: 3, column: 'sire', code: 'IMPORT_UNKNOWN_PARENT', value: 'nobody' },
      ],
    });
    const refused = await ask(CONFIRM, { text, columns: [] });
    expect(refused.errors?.[0]?.extensions).toMatchObject({ code: 'IMPORT_INVALID' });
    expect((await ask(FISH, { tag: 'X' })).data?.['fishByTag']).toBeNull();
  });

  it('takes a file in and gives the same rows back, byte for byte in our own order', async () => {
    const preview = (await ask(PREVIEW, { text: reversed })).data?.['previewImport'];
    expect(preview).toMatchObject({
      ready: true,
      newFish: 9,
      newSpawns: 5,
      newLines: ['R'],
      scores: 7,
    });
    const columns = (preview?.['columns'] as { header: string; role: string }[]).map(
      ({ header, role }) => ({ header, role }),
    );
    const result = (await ask(CONFIRM, { text: reversed, columns })).data?.['confirmImport'];
    expect(result).toEqual({ fish: 9, spawns: 5, lines: 1, scores: 7, traits: 2, unchanged: 0 });
    const response = await api.http('/export/pedigree.csv');
    expect(response.headers.get('content-type')).toContain('text/csv');
    expect(response.headers.get('content-disposition')).toContain('pedigree.csv');
    expect(await response.text()).toBe(inOurOrder);
  });

  it('records fish with parents, broods, scores and history', async () => {
    expect((await ask(FISH, { tag: 'E' })).data?.['fishByTag']).toMatchObject({
      sex: 'UNCERTAIN',
      hatchDate: '2025-01-01',
      disposition: 'UNSORTED',
      line: { code: 'R' },
      sire: { tag: 'A' },
      dam: { tag: 'B' },
      history: [{ action: 'imported' }],
    });
    const scores = (await ask(FISH, { tag: 'E' })).data?.['fishByTag']?.['latestScores'];
    expect(scores).toEqual(
      expect.arrayContaining([
        { value: 12.25, trait: { name: 'length', kind: 'MEASURED' } },
        { value: 1, trait: { name: 'marble', kind: 'YES_NO' } },
      ]),
    );
    const [a, b] = await Promise.all(['A', 'B'].map((tag) => ask(FISH, { tag })));
    expect(a?.data?.['fishByTag']?.['spawn']).toEqual(b?.data?.['fishByTag']?.['spawn']);
  });

  it('makes full sibs of fish whose parents nobody knows, and tells them from unrelated ones', async () => {
    const query = `query ($tag: String!) { fishByTag(tag: $tag) { inbreedingCoefficient inbreedingBasis } }`;
    const told = async (tag: string) => (await ask(query, { tag })).data?.['fishByTag'];
    expect(await told('X')).toEqual({ inbreedingCoefficient: 0.25, inbreedingBasis: 'AT_LEAST' });
    expect(await told('E')).toEqual({ inbreedingCoefficient: 0.25, inbreedingBasis: 'KNOWN' });
  });

  it('changes nothing when the same file comes again, and refuses a tag with other parents', async () => {
    const again = (await ask(CONFIRM, { text: inOurOrder, columns: [] })).data?.['confirmImport'];
    expect(again).toEqual({ fish: 0, spawns: 0, lines: 0, scores: 0, traits: 0, unchanged: 9 });
    const other = (await ask(PREVIEW, { text: 'tag,sire,dam\nE,S,D\n' })).data?.['previewImport'];
    expect(other).toMatchObject({
      ready: false,
      problems: [{ code: 'IMPORT_TAG_TAKEN' }, { code: 'IMPORT_TAG_TAKEN' }],
    });
  });

  it('takes no sum for a fish, makes no second line or fish of another spelling, and says so', async () => {
    const notes = 'noteCount skippedRows notes { line column code message }';
    const text = 'tag,sire,sex,line\nN1,s,f,r\nN2,N3,,R\nn3,,m,\nTotal,,3,\n';
    const preview = (await ask(PREVIEW.replace('problemCount', `problemCount ${notes}`), { text }))
      .data?.['previewImport'];
    expect(preview).toMatchObject({
      ready: true,
      rowCount: 4,
      newFish: 3,
      newLines: [],
      skippedRows: 1,
      noteCount: 4,
      notes: [
        { line: 2, column: 'tag', code: 'IMPORT_SPELLING' },
        { line: 2, column: 'line', code: 'IMPORT_SPELLING' },
        { line: 3, column: 'tag', code: 'IMPORT_SPELLING' },
        { line: 5, column: 'tag', code: 'IMPORT_SUMMARY_ROW' },
      ],
    });
    const confirm = CONFIRM.replace('unchanged', 'unchanged skippedRows');
    const taken = (await ask(confirm, { text, columns: [] })).data?.['confirmImport'];
    expect(taken).toMatchObject({ fish: 3, lines: 0, skippedRows: 1 });
    const found = async (tag: string) => (await ask(FISH, { tag })).data?.['fishByTag'];
    expect(await found('N1')).toMatchObject({ sire: { tag: 'S' }, line: { code: 'R' } });
    expect(await found('N2')).toMatchObject({ sire: { tag: 'n3' }, line: { code: 'R' } });
    expect(await found('Total')).toBeNull();
  });

  it('exports no cell that a spreadsheet would run', async () => {
    const text = 'tag,sire\n=cmd(),\n+N9,=cmd()\n';
    expect((await ask(CONFIRM, { text, columns: [] })).data?.['confirmImport']).toMatchObject({
      fish: 2,
    });
    const csv = await (await api.http('/export/pedigree.csv')).text();
    expect(csv).toContain("\n'=cmd(),,");
    expect(csv).toContain("\n'+N9,'=cmd(),");
    const again = (await ask(PREVIEW, { text: csv })).data?.['previewImport'];
    expect(again).toMatchObject({ ready: true, newFish: 0, newSpawns: 0 });
  });

  it('gives the pedigree to nobody without a session', async () => {
    const response = await fetch(new URL('/export/pedigree.csv', api.url));
    expect(response.status).toBe(401);
    expect(await response.text()).not.toContain('hatch_date');
  });
});
