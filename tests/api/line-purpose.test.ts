import { STARTING_PURPOSE } from '@linewright/mating';
import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { purposeOfLine } from '../../apps/api/src/stock/purpose-rows.js';
import { daysAgo } from '../clock.js';
import { creation, newRecords } from '../new-records.js';
import { recordsOf, type RunningApi, startApi } from './harness.js';

const CONTENT = `traits { traitId trait { name } better low high worth }
  looks { show { locusId phenotype } wanted worth required }
  ceiling kinshipRise broods vessels broodsPerFish fry keep earliest latest inbreedingCost
  rules { ages { capableFrom preferredFrom bestUntil fertileUntil } maleRest { least preferred }
    femaleRest { least preferred } bodyLengthRatio { least most } knownAncestryFrom }`;
const VERSION = `version at by note content { ${CONTENT} }`;
const SAY = `mutation ($input: SayWhatLineIsForInput!) { sayWhatLineIsFor(input: $input) { ${VERSION} } }`;
const NOW = `query ($id: ID!) { line(id: $id) { purpose { ${VERSION} } } }`;
const ALL = `query ($id: ID!, $first: Int, $after: String) { linePurposes(lineId: $id, first: $first, after: $after) {
  edges { node { version note content { broods } } } pageInfo { hasNextPage endCursor } totalCount } }`;

interface Version {
  version: number;
  at: string | null;
  by: string | null;
  note: string | null;
  content: Record<string, unknown>;
}

interface Page {
  edges: { node: { version: number; note: string | null; content: { broods: number } } }[];
  pageInfo: { hasNextPage: boolean; endCursor: string | null };
  totalCount: number;
}

const rules = {
  ages: { capableFrom: 90, preferredFrom: 150, bestUntil: 400, fertileUntil: 600 },
  maleRest: { least: 8, preferred: 15 },
  femaleRest: { least: 15, preferred: 22 },
  bodyLengthRatio: { least: 0.7, most: 0.95 },
  knownAncestryFrom: 0.6,
};

describe('what a line is for', () => {
  let api: RunningApi;
  let lineId = '';
  let traitId = '';
  const said = () => ({
    traits: [{ traitId, better: 'HIGHER', low: 175, high: null, worth: 0.5 }],
    looks: [
      {
        show: [
          { locusId: 'bl', phenotype: 'royal' },
          { locusId: 'dt', phenotype: 'single' },
        ],
        ...{ wanted: true, worth: 4, required: true },
      },
    ],
    ...{ ceiling: 0.2, kinshipRise: 0.01, broods: 4, vessels: 3, broodsPerFish: 1, fry: 200 },
    ...{ keep: 10, earliest: '2026-03-01', latest: '2026-05-01', inbreedingCost: 2 },
    rules,
  });
  const say = (expectedVersion: number, more: object = {}, note: string | null = null) =>
    api.send<{ sayWhatLineIsFor: Version }>(SAY, {
      input: { lineId, expectedVersion, content: { ...said(), ...more }, note },
    });
  const now = async (): Promise<Version> =>
    (await api.graphql<{ line: { purpose: Version } }>(NOW, { id: lineId })).line.purpose;
  const page = async (first: number, after: string | null = null): Promise<Page> =>
    (await api.graphql<{ linePurposes: Page }>(ALL, { id: lineId, first, after })).linePurposes;
  const fieldsOf = async (more: object): Promise<string[]> => {
    const { errors } = await say((await now()).version, more);
    expect(errors?.[0]?.extensions.code).toBe('VALIDATION');
    return (errors?.[0]?.extensions['fields'] as { field: string }[]).map(({ field }) => field);
  };

  beforeAll(async () => {
    api = await startApi();
    const records = newRecords(api);
    lineId = await records.createLine({ code: 'Q', name: 'Quiet' });
    traitId = await records.createTrait({
      ...{ key: 'spread', name: 'Spread', kind: 'MEASURED', unit: '°' },
      ...{ minimum: 0, maximum: 240, higherIsBetter: true },
    } as never);
  });
  afterAll(() => api.close());

  it('is nothing in particular while nobody has said it', async () => {
    const purpose = await now();
    expect(purpose).toMatchObject({ version: 0, at: null, by: null });
    const { traits, looks, rules: start, ...figures } = STARTING_PURPOSE;
    expect(purpose.content).toMatchObject({ ...figures, traits: [...traits], looks: [...looks] });
    expect(purpose.content['rules']).toMatchObject({
      ages: start.ages,
      maleRest: start.rest.male,
      femaleRest: start.rest.female,
      bodyLengthRatio: null,
    });
    const { manager } = await recordsOf(api);
    expect(await purposeOfLine(manager, lineId)).toEqual({ version: 0, content: STARTING_PURPOSE });
    expect(await page(10)).toMatchObject({ edges: [], totalCount: 0 });
  });

  it('is kept whole as a first version, with who and when', async () => {
    const { data } = await say(0, {}, 'a first try');
    expect(data?.sayWhatLineIsFor).toMatchObject({
      version: 1,
      by: 'Test keeper',
      note: 'a first try',
    });
    const purpose = await now();
    expect(purpose).toEqual(data?.sayWhatLineIsFor);
    expect(Date.parse(purpose.at ?? '')).not.toBeNaN();
    const { traits, ...rest } = said();
    expect(purpose.content).toEqual({
      ...rest,
      traits: traits.map((aim) => ({ ...aim, trait: { name: 'Spread' } })),
    });
    const { manager } = await recordsOf(api);
    const { content } = await purposeOfLine(manager, lineId.toUpperCase());
    expect(content).toMatchObject({
      traits: [{ traitId, better: 'higher', low: 175, high: null, worth: 0.5 }],
      looks: [{ look: { show: { bl: 'royal', dt: 'single' } }, wanted: true }],
      rules: { rest: { male: { least: 8 }, female: { preferred: 22 } } },
    });
  });

  it('is refused at a version that is not the newest, and nothing is lost', async () => {
    const { errors } = await say(0, { broods: 9 });
    expect(errors?.[0]?.extensions).toMatchObject({
      ...{ code: 'CONFLICT_REVISION', id: lineId },
      ...{ expectedRevision: 0, currentRevision: 1 },
    });
    expect(errors?.[0]?.message).toContain('look at the newer one');
    expect((await page(10)).totalCount).toBe(1);
  });

  it('adds nothing when the same is said twice, as after a lost answer', async () => {
    const { data } = await say(0, {}, 'a first try');
    expect(data?.sayWhatLineIsFor.version).toBe(1);
    expect((await page(10)).totalCount).toBe(1);
  });

  it('is one version of two that were said at once', async () => {
    const both = await Promise.all([say(1, { broods: 5 }), say(1, { broods: 6 })]);
    const codes = both.map(({ errors }) => errors?.[0]?.extensions.code ?? 'said');
    expect(codes.sort()).toEqual(['CONFLICT_REVISION', 'said']);
    expect((await page(10)).totalCount).toBe(2);
  });

  it('goes back to an older version as a new one, and is paged from the newest', async () => {
    await say(2, {}, 'back to version 1');
    const first = await page(2);
    expect(first.edges.map(({ node }) => node.version)).toEqual([3, 2]);
    expect(first.pageInfo.hasNextPage).toBe(true);
    const second = await page(2, first.pageInfo.endCursor);
    expect(second.edges.map(({ node }) => node.version)).toEqual([1]);
    expect(second).toMatchObject({ pageInfo: { hasNextPage: false }, totalCount: 3 });
    expect(first.edges[0]?.node.content).toEqual(second.edges[0]?.node.content);
    const code = (await api.send(ALL, { id: lineId, after: 'abc' })).errors?.[0]?.extensions.code;
    expect(code).toBe('CURSOR_INVALID');
  });

  it('names the field that cannot be', async () => {
    expect(await fieldsOf({ ceiling: 1.5 })).toEqual(['content.ceiling']);
    expect(await fieldsOf({ latest: '2026-02-01' })).toEqual(['content.latest']);
    const late = { ...rules, ages: { ...rules.ages, capableFrom: 500 } };
    expect(await fieldsOf({ rules: late })).toEqual(['content.rules.ages']);
    const resting = { ...rules, femaleRest: { least: 30, preferred: 3 } };
    expect(await fieldsOf({ rules: resting })).toEqual(['content.rules.rest.female']);
    const pink = { show: [{ locusId: 'bl', phenotype: 'pink' }], wanted: true, worth: 1 };
    expect(await fieldsOf({ looks: [{ ...pink, required: false }] })).toEqual(['content.looks']);
    const twice = [...said().traits, ...said().traits];
    expect(await fieldsOf({ traits: twice })).toEqual([`content.traits.${traitId}`]);
    expect((await page(10)).totalCount).toBe(3);
  });

  it('names a trait that is not in use, and a locus that there is not', async () => {
    const [aim] = said().traits;
    const unknown = await say(3, { traits: [{ ...aim, traitId: randomUUID() }] });
    expect(unknown.errors?.[0]?.extensions.code).toBe('NOT_FOUND');
    const look = { wanted: true, worth: 1, required: false };
    const nowhere = await say(3, {
      looks: [{ ...look, show: [{ locusId: 'zz', phenotype: 'royal' }] }],
    });
    expect(nowhere.errors?.[0]?.extensions.code).toBe('LOCUS_UNKNOWN');
  });

  it('is never changed in the database itself', async () => {
    const records = await recordsOf(api);
    await expect(
      records.query(`UPDATE line_purpose SET note = 'other' WHERE line_id = $1`, [lineId]),
    ).rejects.toThrow(/never changed/);
  });

  it('stays readable where a row was spoilt: as nothing in particular', async () => {
    const records = await recordsOf(api);
    await records.query(
      `INSERT INTO line_purpose (line_id, version, content, by_name, at) VALUES ($1, 4, '{"traits": 7}', 'x', now())`,
      [lineId],
    );
    expect((await now()).content).toMatchObject({ traits: [], broods: STARTING_PURPOSE.broods });
    await records.query('DELETE FROM line_purpose WHERE version = 4');
  });

  it('fills a part that came later than the row', async () => {
    const records = await recordsOf(api);
    await records.query(
      `INSERT INTO line_purpose (line_id, version, content, by_name, at) VALUES ($1, 4, '{"broods": 7}', 'x', now())`,
      [lineId],
    );
    expect((await now()).content).toMatchObject({ broods: 7, keep: STARTING_PURPOSE.keep });
  });

  it('rules when a pair of the line may be planned, and says where the limit comes from', async () => {
    const records = newRecords(api);
    const own = await records.createLine({ code: 'Y', name: 'Young' });
    const young = (tag: string, sex: 'MALE' | 'FEMALE', of: string | null) =>
      records.createFish({ tag, sex, lineId: of, hatchDate: daysAgo(100) });
    const [sireId, damId] = [await young('Y-1', 'MALE', own), await young('Y-2', 'FEMALE', own)];
    const outside = await young('Y-3', 'FEMALE', null);
    const sayAges = (version: number, ages: object) =>
      api.graphql(SAY, {
        input: {
          ...{ lineId: own, expectedVersion: version },
          content: { ...said(), rules: { ...rules, ages: { ...rules.ages, ...ages } } },
        },
      });
    const plan = async (dam: string) => {
      const { errors, data } = await api.send<{ planPairing: { obstacles: { basis: string }[] } }>(
        creation('planPairing', 'obstacles { code basis }'),
        { input: { sireId, damId: dam, plannedOn: daysAgo(0), confirmed: false } },
      );
      return errors?.[0]?.message ?? data?.planPairing.obstacles;
    };
    await sayAges(0, { capableFrom: 120, preferredFrom: 150 });
    expect(await plan(damId)).toContain('just capable of spawning from 17 weeks');
    // Each fish goes by its own line; one of none by what is built in: 84 days.
    expect(await plan(outside)).toContain('Y-1');
    expect(await plan(outside)).not.toContain('Y-3');
    await sayAges(1, { capableFrom: 60, preferredFrom: 90 });
    for (const dam of [damId, outside]) expect(await plan(dam)).toEqual([]);
    await sayAges(2, { capableFrom: 110, preferredFrom: 150 });
    const { pairings } = await api.graphql<{
      pairings: { sire: { tag: string }; dam: { tag: string }; obstacles: object[] }[];
    }>('{ pairings { sire { tag } dam { tag } obstacles { code basis } } }');
    const stop = { code: 'TOO_YOUNG', basis: 'set in what the line is for' };
    expect(pairings.find(({ dam }) => dam.tag === 'Y-2')?.obstacles).toEqual([stop, stop]);
    expect(pairings.find(({ dam }) => dam.tag === 'Y-3')?.obstacles).toEqual([stop]);
  });

  it('cannot be said of a line that was withdrawn', async () => {
    const other = await newRecords(api).createLine({ code: 'W', name: 'Gone' });
    await api.graphql('mutation ($input: WithdrawInput!) { withdrawLine(input: $input) { id } }', {
      input: { id: other, reason: 'a slip' },
    });
    const { errors } = await api.send(SAY, {
      input: { lineId: other, expectedVersion: 0, content: said() },
    });
    expect(errors?.[0]?.message).toContain('withdrawn');
  });
});
