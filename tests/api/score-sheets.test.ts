import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type RunningApi, startApi } from './harness.js';
import { creation, newRecords, type NewRecords } from '../new-records.js';

interface Version {
  version: number;
  fromAgeDays: number | null;
  lines: {
    trait: { id: string; name: string; grades: { from: number; name: string }[] };
    weight: number | null;
    noneAt: number | null;
    fullAt: number | null;
  }[];
  faults: { id: string; name: string; severity: string; points: number | null }[];
}
interface Sheet {
  id: string;
  name: string;
  version: number;
  revision: number;
  current: Version;
  versions: Version[];
}
interface Scoring {
  id: string;
  sheetVersion: number;
  ageDays: number | null;
  scorer: string;
  warnings: string[];
  faults: { name: string; points: number | null }[];
  scores: { id: string; value: number }[];
  total: {
    total: number | null;
    beforeFaults: number | null;
    deducted: number;
    disqualified: boolean;
    missing: number;
    equalWeights: boolean;
    parts: { share: number | null; points: number; trait: { name: string } }[];
  };
}

const version = `version fromAgeDays faults { id name severity points }
  lines { weight noneAt fullAt trait { id name grades { from name } } }`;
const sheetFields = `id name version revision current { ${version} } versions { ${version} }`;
const scoringFields = `id sheetVersion ageDays scorer warnings faults { name points } scores { id value }
  total { total beforeFaults deducted disqualified missing equalWeights parts { share points trait { name } } }`;

describe('score sheets', () => {
  let api: RunningApi;
  let fishId = '';
  let spread = '';
  let balance = '';

  const trait: NewRecords['createTrait'] = (input) => newRecords(api).createTrait(input);

  beforeAll(async () => {
    api = await startApi();
    fishId = await newRecords(api).createFish({
      tag: 'S-1',
      sex: 'MALE',
      hatchDate: '2026-01-01',
    });
    spread = await trait({
      key: 'spread',
      name: 'Spread',
      kind: 'MEASURED',
      unit: '°',
      minimum: 0,
      maximum: 240,
      higherIsBetter: true,
      grades: [
        { from: 180, name: 'halfmoon' },
        { from: 0, name: 'delta' },
        { from: 160, name: 'superdelta' },
      ],
    });
    balance = await trait({
      key: 'balance',
      name: 'Balance',
      kind: 'ORDINAL',
      minimum: 0,
      maximum: 5,
      higherIsBetter: true,
    });
  });
  afterAll(() => api.close());

  const content = (more: object = {}): object => ({
    fromAgeDays: 112,
    toAgeDays: 168,
    lines: [
      { traitId: spread, noneAt: 120, fullAt: 180, weight: 3 },
      { traitId: balance, noneAt: 0, fullAt: 5, weight: 1 },
    ],
    faults: [
      { name: 'Torn fin', severity: 'SLIGHT' },
      { name: 'Blind', severity: 'DISQUALIFYING' },
    ],
    deductions: [{ severity: 'SLIGHT', points: 2 }],
    ...more,
  });
  const create = async (input: object): Promise<Sheet> =>
    (
      await api.graphql<{ createScoreSheet: Sheet }>(creation('createScoreSheet', sheetFields), {
        input,
      })
    ).createScoreSheet;
  const scoreOn = `mutation ($input: ScoreOnSheetInput!) { scoreOnSheet(input: $input) { ${scoringFields} } }`;
  const look = (sheet: Sheet, more: object = {}): { id: string } & Record<string, unknown> => ({
    id: randomUUID(),
    fishId,
    sheetId: sheet.id,
    sheetVersion: sheet.version,
    scoredOn: '2026-05-01',
    scores: [
      { id: randomUUID(), traitId: spread, value: 165 },
      { id: randomUUID(), traitId: balance, value: 5 },
    ],
    faultIds: [],
    ...more,
  });
  const score = async (input: object): Promise<Scoring> =>
    (await api.graphql<{ scoreOnSheet: Scoring }>(scoreOn, { input })).scoreOnSheet;
  const refused = async (query: string, input: object): Promise<string> => {
    const { errors } = await api.send(query, { input });
    return `${errors?.[0]?.extensions.code}: ${errors?.[0]?.message}`;
  };

  it('are made once, however often they are sent, and name grades in order', async () => {
    const id = randomUUID();
    const sheet = await create({ id, name: 'Grown', content: content() });
    expect(await create({ id, name: 'Grown', content: content() })).toEqual(sheet);
    expect(sheet.version).toBe(1);
    expect(sheet.current.lines[0]?.trait.grades.map((g) => g.name)).toEqual([
      'delta',
      'superdelta',
      'halfmoon',
    ]);
    expect(sheet.current.faults.map((f) => f.points)).toEqual([2, null]);
  });

  it.each([
    ['no trait', { lines: [] }, /at least one trait/],
    ['an age window upside down', { fromAgeDays: 90, toAgeDays: 60 }, /below the youngest/],
    [
      'points for a disqualifying fault',
      { deductions: [{ severity: 'DISQUALIFYING', points: 5 }] },
      /disqualifies the fish and takes no points/,
    ],
    ['points above 100', { deductions: [{ severity: 'MINOR', points: 101 }] }, /0 to 100/],
    ['a fault without a name', { faults: [{ name: ' ', severity: 'MINOR' }] }, /no name/],
  ])('refuse %s', async (_, more, words) => {
    const query = creation('createScoreSheet');
    expect(await refused(query, { name: 'Bad', content: content(more) })).toMatch(words);
  });

  it('refuse lines that cannot be counted', async () => {
    const query = creation('createScoreSheet');
    const withLines = (...lines: object[]) =>
      refused(query, { name: 'Bad', content: content({ lines }) });
    expect(await withLines({ traitId: spread }, { traitId: spread })).toMatch(/twice/);
    expect(await withLines({ traitId: spread, noneAt: 5 })).toMatch(/both/);
    expect(await withLines({ traitId: spread, noneAt: 5, fullAt: 5 })).toMatch(/same 5/);
    expect(await withLines({ traitId: spread, weight: -1 })).toMatch(/below 0/);
    expect(await withLines({ traitId: spread, weight: 1 }, { traitId: balance })).toMatch(
      /every trait a weight/,
    );
    expect(await withLines({ traitId: randomUUID() })).toMatch(/NOT_FOUND/);
  });

  it("total by the person's weights, with what makes it up", async () => {
    const sheet = await create({ name: 'Weighted', content: content() });
    const torn = sheet.current.faults[0]?.id ?? '';
    const looked = await score(look(sheet, { faultIds: [torn], note: 'left side' }));
    expect(looked.total.parts.map((part) => part.share)).toEqual([0.75, 1]);
    expect(looked.total.beforeFaults).toBeCloseTo((100 * (3 * 0.75 + 1)) / 4, 9);
    expect(looked.total.total).toBeCloseTo(81.25 - 2, 9);
    expect([looked.total.missing, looked.total.equalWeights]).toEqual([0, false]);
    expect(looked.scorer).toBe('Test keeper');
    expect([looked.ageDays, looked.warnings]).toEqual([120, []]);
    const blind = sheet.current.faults[1]?.id ?? '';
    const out = await score(look(sheet, { faultIds: [blind] }));
    expect(out.total.disqualified).toBe(true);
    // Without weights all lines count alike.
    const lines = [
      { traitId: spread, noneAt: 120, fullAt: 180 },
      { traitId: balance, noneAt: 0, fullAt: 5 },
    ];
    const plain = await create({ name: 'Plain', content: content({ lines }) });
    const even = await score(look(plain));
    expect(even.total.total).toBeCloseTo(87.5, 9);
    expect(even.total.equalWeights).toBe(true);
  });

  it('take the same look once, however often it is sent, and all of it or nothing', async () => {
    const sheet = await create({ name: 'Once', content: content() });
    const input = look(sheet);
    const both = await Promise.all([score(input), score(input)]);
    expect(both[0]).toEqual(both[1]);
    expect(both[0]?.scores).toHaveLength(2);
    const scores = async (): Promise<number> =>
      (
        await api.graphql<{ fish: { scores: unknown[] } }>(
          'query ($id: ID!) { fish(id: $id) { scores { id } } }',
          { id: fishId },
        )
      ).fish.scores.length;
    const before = await scores();
    const half = look(sheet, {
      scores: [
        { traitId: balance, value: 4 },
        { traitId: spread, value: 999 },
      ],
    });
    expect(await refused(scoreOn, half)).toMatch(/above 240/);
    expect(await scores()).toBe(before);
    const { fish } = await api.graphql<{ fish: { sheetScorings: { id: string }[] } }>(
      'query ($id: ID!) { fish(id: $id) { sheetScorings { id } } }',
      { id: fishId },
    );
    expect(fish.sheetScorings.map((one) => one.id)).not.toContain(half.id);
  });

  it('lose none of 200 looks sent at once, each of them twice', async () => {
    const sheet = await create({ name: 'Busy', content: content() });
    const looks = Array.from({ length: 200 }, () => look(sheet));
    const answers = await Promise.all([...looks, ...looks].map((input) => score(input)));
    expect(new Set(answers.map(({ id }) => id)).size).toBe(200);
    const { fish } = await api.graphql<{
      fish: { sheetScorings: { id: string; scores: unknown[] }[] };
    }>('query ($id: ID!) { fish(id: $id) { sheetScorings { id scores { id } } } }', { id: fishId });
    const kept = new Map(fish.sheetScorings.map(({ id, scores }) => [id, scores.length]));
    expect(looks.map(({ id }) => kept.get(id))).toEqual(looks.map(() => 2));
  });

  it('refuse what is not on the sheet, and a day before hatching', async () => {
    const sheet = await create({ name: 'Strict', content: content() });
    expect(await refused(scoreOn, look(sheet, { faultIds: [randomUUID()] }))).toMatch(
      /not on version 1/,
    );
    expect(
      await refused(scoreOn, look(sheet, { scores: [{ traitId: randomUUID(), value: 1 }] })),
    ).toMatch(/not on version 1/);
    expect(await refused(scoreOn, look(sheet, { scores: [] }))).toMatch(/at least one/);
    expect(await refused(scoreOn, look(sheet, { scoredOn: '2025-12-01' }))).toMatch(
      /before S-1 hatched/,
    );
    expect(await refused(scoreOn, look(sheet, { sheetVersion: 9 }))).toMatch(/NOT_FOUND/);
  });

  it('warn of an age outside the window and of missing lines, and refuse neither', async () => {
    const sheet = await create({ name: 'Ages', content: content() });
    const early = await score(
      look(sheet, { scoredOn: '2026-02-01', scores: [{ traitId: balance, value: 5 }] }),
    );
    expect(early.warnings[0]).toMatch(/31 days, younger than the 112 days/);
    expect([early.total.missing, early.total.total]).toEqual([1, 100]);
  });

  it('keep older looks under the version they were given on', async () => {
    const sheet = await create({ name: 'Versions', content: content() });
    const before = await score(look(sheet));
    const revise = `mutation ($input: ReviseScoreSheetInput!) { reviseScoreSheet(input: $input) { ${sheetFields} } }`;
    const lines = [{ traitId: balance, noneAt: 0, fullAt: 5 }];
    const { reviseScoreSheet: next } = await api.graphql<{ reviseScoreSheet: Sheet }>(revise, {
      input: { id: sheet.id, revision: 1, content: content({ lines }) },
    });
    expect([next.version, next.versions.length]).toEqual([2, 2]);
    expect(next.versions[0]?.lines).toHaveLength(2);
    const { fish } = await api.graphql<{ fish: { sheetScorings: Scoring[] } }>(
      `query ($id: ID!) { fish(id: $id) { sheetScorings { ${scoringFields} } } }`,
      { id: fishId },
    );
    const same = fish.sheetScorings.find((one) => one.id === before.id);
    expect(same).toEqual(before);
    // Filled in on a phone without a connection before the revision: still taken.
    expect((await score(look(sheet))).sheetVersion).toBe(1);
    expect(await refused(revise, { id: sheet.id, revision: 1, name: 'Late' })).toMatch(
      /CONFLICT_REVISION/,
    );
    const { reviseScoreSheet: named } = await api.graphql<{ reviseScoreSheet: Sheet }>(revise, {
      input: { id: sheet.id, revision: 2, name: 'Named anew' },
    });
    expect([named.version, named.name]).toEqual([2, 'Named anew']);
  });

  it('count a later correction of a value, and drop a withdrawn look with its values', async () => {
    const sheet = await create({ name: 'Corrected', content: content() });
    const looked = await score(look(sheet));
    const wrong = looked.scores.find(({ value }) => value === 165)?.id;
    await api.graphql(
      'mutation ($input: CorrectScoreInput!) { correctScore(input: $input) { id } }',
      {
        input: { scoreId: wrong, value: 180, reason: 'misread' },
      },
    );
    const again = await score({ ...look(sheet), id: looked.id });
    expect(again.total.total).toBeCloseTo(100, 9);
    expect(again.scores).toHaveLength(3);
    const { withdrawSheetScoring: gone } = await api.graphql<{ withdrawSheetScoring: Scoring }>(
      `mutation ($input: WithdrawInput!) { withdrawSheetScoring(input: $input) { ${scoringFields} } }`,
      { input: { id: looked.id, reason: 'Wrong fish' } },
    );
    expect(gone.total.total).toBeNull();
  });

  it('are withdrawn with a reason and leave the list', async () => {
    const sheet = await create({ name: 'Gone', content: content() });
    await api.graphql(
      'mutation ($input: WithdrawInput!) { withdrawScoreSheet(input: $input) { id } }',
      {
        input: { id: sheet.id, reason: 'Not used', revision: 1 },
      },
    );
    const { scoreSheets } = await api.graphql<{ scoreSheets: { id: string }[] }>(
      '{ scoreSheets { id } }',
    );
    expect(scoreSheets.map(({ id }) => id)).not.toContain(sheet.id);
  });

  it('start from an offered beginning, with own traits kept and no weights or points set', async () => {
    const { sheetStarts } = await api.graphql<{ sheetStarts: { key: string; name: string }[] }>(
      '{ sheetStarts { key name traitNames faults { name severity } } }',
    );
    expect(sheetStarts.map(({ key }) => key)).toContain('grown');
    const own = await trait({
      key: 'fin_balance',
      name: 'My balance',
      kind: 'ORDINAL',
      minimum: 1,
      maximum: 9,
    });
    const start = `mutation ($input: StartScoreSheetInput!) { startScoreSheet(input: $input) { ${sheetFields} } }`;
    const made: Sheet[] = [];
    for (const { key } of sheetStarts)
      made.push(
        (await api.graphql<{ startScoreSheet: Sheet }>(start, { input: { start: key } }))
          .startScoreSheet,
      );
    const grown = made.find(({ current }) => current.fromAgeDays === 112);
    const line = grown?.current.lines.find((one) => one.trait.id === own);
    expect([line?.noneAt, line?.fullAt, line?.trait.name]).toEqual([1, 9, 'My balance']);
    for (const { current } of made) {
      expect(current.lines.map(({ weight }) => weight)).toEqual(current.lines.map(() => null));
      expect(current.faults.map(({ points }) => points)).toEqual(current.faults.map(() => null));
    }
    expect(await refused(start, { start: 'nowhere' })).toMatch(/one of structure/);
  });
});

describe('repeats and scorers', () => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi();
  });
  afterAll(() => api.close());

  it('are told from standing scores close in time, and said to be few when they are', async () => {
    const traitId = await newRecords(api).createTrait({
      key: 'length',
      name: 'Length',
      kind: 'MEASURED',
    });
    const ask = async (): Promise<Record<string, never>> =>
      (
        await api.graphql<{ traitReliability: Record<string, never> }>(
          `query ($traitId: ID!) { traitReliability(traitId: $traitId) { fishScored fishRepeated tooFew otherVersions
            repeatability { repeatability fish scores interval { low high } } scorers { first second fish difference interval { low high } } scores { tag scorer value } } }`,
          { traitId },
        )
      ).traitReliability;
    expect(await ask()).toMatchObject({
      repeatability: null,
      tooFew: expect.stringMatching(/twice/),
    });
    const fishIds: Record<string, string> = {};
    const record = async (
      tag: string,
      day: string,
      scorer: string,
      value: number,
    ): Promise<string> => {
      fishIds[tag] ??= await newRecords(api).createFish({
        tag,
        sex: 'MALE',
        hatchDate: '2026-01-01',
      });
      const [scoreId] = await newRecords(api).recordScores({
        fishId: fishIds[tag],
        scoredOn: day,
        scorer,
        scores: [{ traitId, value }],
      });
      return scoreId ?? '';
    };
    // 1, 2 and 5, 6: r = (16 - 0.5) / (16 + 0.5) by hand.
    await record('R-1', '2026-05-01', 'Ann', 1);
    await record('R-1', '2026-05-03', 'Bo', 2);
    await record('R-2', '2026-05-01', 'Ann', 5);
    const wrong = await record('R-2', '2026-05-02', 'Bo', 66);
    await api.graphql(
      'mutation ($input: CorrectScoreInput!) { correctScore(input: $input) { id } }',
      {
        input: { scoreId: wrong, value: 6, reason: 'slip' },
      },
    );
    // Too late for a repeat, and scored once only.
    await record('R-1', '2026-09-01', 'Bo', 40);
    await record('R-3', '2026-05-01', 'Ann', 9);
    const answer = await ask();
    expect(answer).toMatchObject({
      fishScored: 3,
      fishRepeated: 2,
      otherVersions: 0,
      tooFew: expect.stringMatching(/Only 2 fish/),
      repeatability: { fish: 2, scores: 4 },
      scorers: [
        { first: 'Ann', second: 'Bo', fish: 2, difference: -1, interval: { low: -1, high: -1 } },
      ],
    });
    const { repeatability } = answer as unknown as { repeatability: { repeatability: number } };
    expect(repeatability.repeatability).toBeCloseTo(15.5 / 16.5, 12);
    // A new meaning of the trait begins anew.
    await api.graphql(
      'mutation ($id: ID!) { correctTrait(input: { id: $id, revision: 1, unit: "mm" }) { version } }',
      { id: traitId },
    );
    expect(await ask()).toMatchObject({ fishScored: 0, otherVersions: 6 });
  });
});
