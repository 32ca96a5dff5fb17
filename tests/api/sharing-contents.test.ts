import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type RunningApi, startApi, recordsOf } from './harness.js';
import { lineJson, sentText } from './line-files.js';

const REPORT = `added updated unchanged conflicts applied
  items { recordKind recordId label outcome changes { field before after } }`;
const ACCEPT = `mutation ($file: ID!) { acceptShare(file: $file) { ${REPORT} } }`;
const IMPORT = `mutation ($text: String!) { confirmImport(fileName: "f.csv", text: $text, columns: []) { fish } }`;
const CSV =
  'tag,sire,dam,sex,hatch_date,line\nS,,,male,2026-01-01,R\nD,,,female,2026-01-01,R\nA,S,D,male,2026-04-01,R\nB,S,D,female,2026-04-01,R\n';
const SCORINGS = `query ($id: ID!) { fish(id: $id) { sheetScorings { id sheetVersion scorer faults { name }
  scores { value trait { name } } total { total parts { share points } } sheet { name } } } }`;

interface Report {
  added: number;
  updated: number;
  unchanged: number;
  conflicts: number;
  items: {
    recordKind: string;
    label: string;
    outcome: string;
    changes: { field: string; before: string | null; after: string | null }[];
  }[];
}

/** Every table that the file carries; what differs between installs by design is left out of the comparison. */
const CARRIED = [
  ...['line', 'trait_definition', 'score_sheet', 'own_locus', 'locus_setting', 'fish', 'spawn'],
  ...['sheet_scoring', 'score', 'phenotype', 'care_record', 'water_reading'],
];

const looks = (dark: string, light: string) => [
  { genotype: 'K/K', phenotype: dark },
  { genotype: 'K/k', phenotype: dark },
  { genotype: 'k/k', phenotype: light },
];

describe('what goes along with a shared line', () => {
  let ours: RunningApi;
  let theirs: RunningApi;
  const ids = new Map<string, string>();
  let file = '';
  let sheet: { id: string; version: number; revision: number };
  let locus: { recordId: string; revision: number };

  const id = (name: string): string => ids.get(name) ?? '';
  const does = async <Data>(
    api: RunningApi,
    name: string,
    type: string,
    input: object,
    more = '',
  ) =>
    (
      await api.graphql<Record<string, Data>>(
        `mutation ($input: ${type}!) { ${name}(input: $input) ${more} }`,
        { input },
      )
    )[name] as Data;
  const query = async (api: RunningApi, sql: string, values: unknown[] = []): Promise<unknown[]> =>
    (await recordsOf(api)).query(sql, values);
  const exported = (api: RunningApi): Promise<string> => lineJson(api, id('R'));
  const take = async (api: RunningApi, text: string): Promise<Report> =>
    (await api.graphql<{ acceptShare: Report }>(ACCEPT, { file: await sentText(api, text) }))
      .acceptShare;
  const contents = async (api: RunningApi): Promise<Record<string, unknown[]>> => {
    const all: Record<string, unknown[]> = {};
    for (const table of CARRIED) {
      const rows = (await query(
        api,
        `SELECT to_jsonb(t) - '{revision,created_at,updated_at,by_account_id}'::text[] AS row FROM "${table}" t ORDER BY id`,
      )) as { row: unknown }[];
      all[table] = rows.map(({ row }) => row);
    }
    all['score_sheet_version'] = await query(
      api,
      `SELECT sheet_id, version, from_age_days, to_age_days, lines, faults, deductions FROM score_sheet_version ORDER BY 1, 2`,
    );
    return all;
  };
  const changed = ({ items }: Report) => items.filter(({ outcome }) => outcome !== 'UNCHANGED');
  const look = (api: RunningApi, fish: string, sheetVersion: number, traitId: string) =>
    does(
      api,
      'scoreOnSheet',
      'ScoreOnSheetInput',
      {
        ...{ id: randomUUID(), fishId: id(fish), sheetId: sheet.id, sheetVersion, faultIds: [] },
        ...{ scoredOn: '2026-06-01', scores: [{ traitId, value: 1 }] },
      },
      '{ id }',
    );

  beforeAll(async () => {
    [ours, theirs] = await Promise.all([startApi(), startApi()]);
    await ours.graphql(IMPORT, { text: CSV });
    for (const table of ['fish', 'spawn'])
      for (const row of (await query(ours, `SELECT id, tag FROM ${table}`)) as {
        id: string;
        tag: string;
      }[])
        ids.set(row.tag, row.id);
    const [line] = (await query(ours, 'SELECT id FROM line')) as { id: string }[];
    ids.set('R', line?.id ?? '');

    sheet = await does(
      ours,
      'startScoreSheet',
      'StartScoreSheetInput',
      { start: 'structure' },
      '{ id version revision }',
    );
    const traits = (await query(
      ours,
      `SELECT l ->> 'traitId' AS id FROM score_sheet_version, jsonb_array_elements(lines) l`,
    )) as { id: string }[];
    ids.set('trait', traits[0]?.id ?? '');
    await look(ours, 'A', 1, id('trait'));
    const definition = { locusId: 'dusk', name: 'Dusk', looks: looks('dusky', 'pale') };
    const alleles = [
      { symbol: 'K', name: 'dusky' },
      { symbol: 'k', name: 'pale' },
    ];
    locus = await does(
      ours,
      'defineLocus',
      'DefineLocusInput',
      { ...definition, alleles },
      '{ recordId revision }',
    );
    await does(
      ours,
      'setLocusSetting',
      'SetLocusSettingInput',
      {
        ...{ locusId: 'dusk', lineId: id('R'), misScoring: 0.02 },
        frequencies: [
          { alleleId: 'K', frequency: 0.25 },
          { alleleId: 'k', frequency: 0.75 },
        ],
      },
      '{ id }',
    );
    await does(
      ours,
      'recordPhenotype',
      'RecordPhenotypeInput',
      {
        ...{ fishId: id('A'), locusId: 'dusk', phenotype: 'pale', seenOn: '2026-06-02' },
      },
      '{ id }',
    );
    const spawnId = id('R-S0001');
    await does(ours, 'recordCare', 'RecordCareInput', {
      ...{ spawnId, step: 'siphon', at: '2026-04-05T08:00:00.000Z', note: 'half a cup' },
    });
    await does(
      ours,
      'recordWater',
      'RecordWaterInput',
      {
        ...{ spawnId, takenAt: '2026-04-05T08:00:00.000Z' },
        figures: { totalAmmonia: 0.5, ammoniaUnit: 'NH4', pH: 7.2, celsius: 27 },
      },
      '{ id }',
    );
    file = await exported(ours);
  });
  afterAll(() => Promise.all([ours.close(), theirs.close()]));

  it('arrives whole: sheets with their looks, own loci with settings, what was seen, care and water', async () => {
    const report = await take(theirs, file);
    expect(report).toMatchObject({ updated: 0, unchanged: 0, conflicts: 0 });
    const kinds = new Set(report.items.map((item) => item.recordKind));
    for (const kind of [
      'SCORE_SHEET',
      'SHEET_SCORING',
      'LOCUS',
      'LOCUS_SETTING',
      'PHENOTYPE',
      'CARE_RECORD',
      'WATER_READING',
    ])
      expect(kinds).toContain(kind);
    const [here, there] = [await contents(ours), await contents(theirs)];
    for (const [table, rows] of Object.entries(here)) {
      expect(rows.length, table).toBeGreaterThan(0);
      expect([table, there[table]]).toEqual([table, rows]);
    }
    const seen = await ours.graphql(SCORINGS, { id: id('A') });
    expect(await theirs.graphql(SCORINGS, { id: id('A') })).toEqual(seen);
    expect(JSON.stringify(seen)).toContain('"points"');
  });

  it('changes nothing a second time, and nothing when it comes back', async () => {
    const before = await contents(theirs);
    const again = await take(theirs, file);
    expect(again).toMatchObject({ added: 0, updated: 0, conflicts: 0 });
    expect(again.unchanged).toBe(again.items.length);
    expect(await contents(theirs)).toEqual(before);
    const back = await take(ours, await exported(theirs));
    expect(back).toMatchObject({ added: 0, updated: 0, conflicts: 0 });
  });

  it('takes a locus and a sheet that were revised there, versions counted on', async () => {
    locus = await does(
      ours,
      'reviseLocus',
      'ReviseLocusInput',
      {
        ...{ id: locus.recordId, revision: locus.revision, name: 'Dusk of ours' },
      },
      '{ recordId revision }',
    );
    const content = {
      ...{ faults: [], deductions: [] },
      lines: [{ traitId: id('trait'), noneAt: 0, fullAt: 2 }],
    };
    sheet = await does(
      ours,
      'reviseScoreSheet',
      'ReviseScoreSheetInput',
      {
        ...{ id: sheet.id, revision: sheet.revision, content },
      },
      '{ id version revision }',
    );
    await look(ours, 'B', 2, id('trait'));
    const report = await take(theirs, await exported(ours));
    expect(report).toMatchObject({ updated: 2, conflicts: 0 });
    expect(changed(report).filter(({ outcome }) => outcome === 'UPDATED')).toMatchObject([
      { recordKind: 'SCORE_SHEET' },
      {
        recordKind: 'LOCUS',
        changes: [{ field: 'definition name', before: 'Dusk', after: 'Dusk of ours' }],
      },
    ]);
    const { fish } = await theirs.graphql<{ fish: { sheetScorings: { sheetVersion: number }[] } }>(
      SCORINGS,
      { id: id('B') },
    );
    expect(fish.sheetScorings).toMatchObject([{ sheetVersion: 2 }]);
    expect(await query(theirs, `SELECT version FROM own_locus_version ORDER BY version`)).toEqual([
      { version: 1 },
      { version: 2 },
    ]);
  });

  it('shows a sheet revised on both sides, and leaves out the looks on their version of it', async () => {
    const revise = async (api: RunningApi, fullAt: number) => {
      const [row] = (await query(api, 'SELECT revision FROM score_sheet')) as {
        revision: number;
      }[];
      const lines = [{ traitId: id('trait'), noneAt: 0, fullAt }];
      await does(
        api,
        'reviseScoreSheet',
        'ReviseScoreSheetInput',
        {
          ...{
            id: sheet.id,
            revision: row?.revision,
            content: { faults: [], deductions: [], lines },
          },
        },
        '{ id }',
      );
    };
    await revise(ours, 5);
    await revise(theirs, 7);
    await look(ours, 'D', 3, id('trait'));
    const before = await contents(theirs);
    const report = await take(theirs, await exported(ours));
    expect(report).toMatchObject({ added: 0, updated: 0, conflicts: 3 });
    expect(changed(report)).toMatchObject([
      { recordKind: 'SCORE_SHEET', outcome: 'CONFLICT' },
      {
        recordKind: 'SHEET_SCORING',
        outcome: 'CONFLICT',
        changes: [{ field: 'restsOn', after: 'version 3 of its score sheet' }],
      },
      { recordKind: 'SCORE', outcome: 'CONFLICT', changes: [{ field: 'restsOn' }] },
    ]);
    expect(await contents(theirs)).toEqual(before);
  });

  it('leaves out what rests on a locus that means something else here, and takes the rest', async () => {
    const third = await startApi();
    try {
      const alleles = [
        { symbol: 'K', name: 'broad' },
        { symbol: 'k', name: 'narrow' },
      ];
      await does(
        third,
        'defineLocus',
        'DefineLocusInput',
        {
          ...{ locusId: 'dusk', name: 'Another', alleles, looks: looks('broad', 'narrow') },
        },
        '{ recordId }',
      );
      const report = await take(third, file);
      expect(report.conflicts).toBe(3);
      expect(
        changed(report)
          .filter(({ outcome }) => outcome === 'CONFLICT')
          .map(({ recordKind }) => recordKind)
          .sort(),
      ).toEqual(['LOCUS', 'LOCUS_SETTING', 'PHENOTYPE']);
      expect(await query(third, 'SELECT count(*)::int AS n FROM phenotype')).toEqual([{ n: 0 }]);
      expect(await query(third, 'SELECT count(*)::int AS n FROM sheet_scoring')).toEqual([
        { n: 1 },
      ]);
    } finally {
      await third.close();
    }
  });

  it('is still read from a file of the first version, which takes nothing away that it does not know', async () => {
    type Raw = { version: number; records: Record<string, Record<string, unknown>[]> };
    const old = JSON.parse(file) as Raw & { exportedAt: string };
    old.version = 1;
    for (const group of [
      'scoreSheets',
      'ownLoci',
      'locusSettings',
      'sheetScorings',
      'phenotypes',
      'careEntries',
      'waterReadings',
    ])
      delete old.records[group];
    for (const score of old.records['scores'] ?? []) delete score['scoringId'];
    for (const trait of old.records['traits'] ?? []) delete trait['grades'];
    const before = await contents(theirs);
    const report = await take(theirs, JSON.stringify(old));
    expect(report).toMatchObject({ added: 0, updated: 0, conflicts: 0 });
    expect(await contents(theirs)).toEqual(before);
    const fresh = await startApi();
    try {
      expect(await take(fresh, JSON.stringify(old))).toMatchObject({ conflicts: 0, updated: 0 });
      // The newer file then adds what the older one could not carry.
      const more = await take(fresh, file);
      expect(more.conflicts).toBe(0);
      const all = await contents(fresh);
      expect(all['sheet_scoring']).toHaveLength(1);
      expect(all['score']).toEqual(
        expect.arrayContaining([
          expect.objectContaining({
            scoring_id: (all['sheet_scoring'] as { id: string }[])[0]?.id,
          }),
        ]),
      );
    } finally {
      await fresh.close();
    }
  });

  it.each<[string, (records: Record<string, Record<string, unknown>[]>) => void]>([
    [
      'a locus without a rule for a genotype',
      ({ ownLoci }) => Object.assign(ownLoci?.[0]?.['definition'] as object, { expression: [] }),
    ],
    [
      'a locus by a name of the catalogue',
      ({ ownLoci }) => Object.assign(ownLoci?.[0]?.['definition'] as object, { id: 'dt' }),
    ],
    [
      'a sheet that scores a trait twice',
      ({ scoreSheets }) => {
        const [version] = scoreSheets?.[0]?.['versions'] as { lines: unknown[] }[];
        version?.lines.push(version.lines[0]);
      },
    ],
    [
      'a sheet with a trait that is nowhere',
      ({ scoreSheets }) => {
        const [version] = scoreSheets?.[0]?.['versions'] as { lines: { traitId: string }[] }[];
        Object.assign(version?.lines[0] ?? {}, { traitId: randomUUID() });
      },
    ],
    [
      'frequencies that do not sum to one',
      ({ locusSettings }) =>
        Object.assign(locusSettings?.[0] ?? {}, { frequencies: { K: 0.5, k: 0.4 } }),
    ],
    [
      'a look on a sheet that is not there',
      ({ sheetScorings }) => Object.assign(sheetScorings?.[0] ?? {}, { sheetId: randomUUID() }),
    ],
  ])('is refused with %s, and nothing is written', async (_, spoil) => {
    const fresh = JSON.parse(file) as { records: Record<string, Record<string, unknown>[]> };
    spoil(fresh.records);
    const before = await contents(theirs);
    const { errors } = await theirs.send(ACCEPT, {
      file: await sentText(theirs, JSON.stringify(fresh)),
    });
    expect(errors?.[0]?.extensions.code).toBe('SHARE_INVALID');
    expect(await contents(theirs)).toEqual(before);
  });
});
