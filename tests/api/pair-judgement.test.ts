import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Records, recordsOn } from './carrier-records.js';
import { daysAgo, today } from '../clock.js';
import { type RunningApi, startApi } from './harness.js';
import { saidOf } from './said-purpose.js';
import { creation, newRecords } from '../new-records.js';

const JUDGEMENT = `inbreedingCoefficient discouraged plannedPairingId sire { id tag } dam { id tag }
  mainAncestors { ancestor { tag } pathCount contribution } traitMeans { mean sireValue damValue trait { key } }
  worth { points standardError choice inbreeding raised looks { label share points }
    traits { trait { key } mean meanError deviation inheritedShare lineMean points } }
  warnings { code severity text basis planning } reasons { code text figure }`;
const LIST = `query ($input: PairingInput!, $first: Int, $after: String) {
  pairingCandidates(input: $input, first: $first, after: $after) {
    totalCount listedCount unsexedCount awayCount maleCount femaleCount waiting { id state }
    pageInfo { hasNextPage endCursor } edges { node { ${JUDGEMENT} classes { phenotype fraction } } } } }`;
const PAIR = `query ($s: ID!, $d: ID!, $input: PairingInput) { plannedBrood(sireId: $s, damId: $d, input: $input) {
  ${JUDGEMENT} classes { classes { phenotype fraction } } } }`;
const PLAN = creation('planPairing', 'id obstacles { code planning }');

interface Judgement {
  worth: { points: number; traits: unknown[]; looks: unknown[] };
  sire: { id: string; tag: string };
  dam: { id: string; tag: string };
  warnings: { code: string; planning: string; text: string }[];
  reasons: { code: string; text: string }[];
  classes: unknown;
}
interface List {
  totalCount: number;
  listedCount: number;
  unsexedCount: number;
  awayCount: number;
  maleCount: number;
  waiting: { id: string; state: string } | null;
  pageInfo: { hasNextPage: boolean; endCursor: string | null };
  edges: { node: Judgement }[];
}

describe('the judgement of a pair', () => {
  let api: RunningApi;
  let records: Records;
  const ids = new Map<string, string>();
  const lines: string[] = [];

  const fish = async (tag: string, sex: 'MALE' | 'FEMALE', more: object = {}) => {
    ids.set(tag, await records.fish(tag, sex, more));
  };
  const decide = (tag: string, disposition: string, reason: string) =>
    api.graphql(`mutation ($input: DecideFishInput!) { decideFish(input: $input) { id } }`, {
      input: { id: ids.get(tag), disposition, on: '2026-05-01', reason },
    });
  const list = async (input: object, first = 100, on = api): Promise<List> =>
    (await on.graphql<{ pairingCandidates: List }>(LIST, { input, first })).pairingCandidates;
  const pair = async (s: string, d: string, input: object = {}): Promise<Judgement> =>
    (await api.graphql<{ plannedBrood: Judgement }>(PAIR, { s, d, input })).plannedBrood;

  beforeAll(async () => {
    api = await startApi();
    records = recordsOn(api);
    for (const code of ['A', 'B']) lines.push(await records.line(code));
    // A stock by chance, the same at each run: sibs, an inbred line, both lines, scores, genotypes and failures.
    const random = fc.sample(fc.double({ min: 0, max: 0.999999, noNaN: true }), {
      numRuns: 400,
      seed: 4,
    });
    const chance = (): number => random.pop() ?? 0.5;
    const pick = <T>(from: readonly T[]): T => from[Math.floor(chance() * from.length)]!;
    const males: string[] = [];
    const females: string[] = [];
    const keep = (tag: string, sex: 'MALE' | 'FEMALE') =>
      (sex === 'MALE' ? males : females).push(tag);
    for (const [i, sex] of (['MALE', 'FEMALE', 'MALE', 'FEMALE'] as const).entries()) {
      await fish(`FO${i}`, sex, { lineId: lines[i % 2], hatchDate: '2025-02-01' });
      keep(`FO${i}`, sex);
    }
    for (let i = 0; i < 6; i++) {
      const spawnId = await records.spawn(`S${i}`, ids.get(pick(males))!, ids.get(pick(females))!, {
        lineId: pick(lines),
        spawnedOn: `2025-0${3 + (i % 6)}-02`,
      });
      for (const sex of ['MALE', 'FEMALE'] as const) {
        const tag = `Y${i}${sex[0]}`;
        await fish(tag, sex, { spawnId, hatchDate: `2025-0${3 + (i % 6)}-05` });
        keep(tag, sex);
      }
    }
    const traitId = await newRecords(api).createTrait({
      key: 'form',
      name: 'form',
      kind: 'ORDINAL',
      minimum: 0,
      maximum: 10,
      higherIsBetter: true,
    });
    for (const tag of [...males, ...females]) {
      if (chance() < 0.7) {
        await newRecords(api).recordScores({
          fishId: ids.get(tag)!,
          scoredOn: '2026-04-01',
          scores: [{ traitId, value: Math.floor(chance() * 10) }],
        });
      }
      for (const [locusId, genotypes] of [
        ['bl', ['Bl/Bl', 'Bl/bl', 'bl/bl']],
        ['m', ['M/M', 'M/m', 'm/m']],
        ['dt', ['Dt/Dt', 'Dt/dt', 'dt/dt']],
      ] as const) {
        if (chance() < 0.6)
          await newRecords(api).recordGenotype({
            fishId: ids.get(tag)!,
            locusId,
            genotype: pick(genotypes),
            basis: 'ASSUMED',
          });
      }
    }
    await newRecords(api).planPairing({
      sireId: ids.get('FO0')!,
      damId: ids.get('FO1')!,
      plannedOn: '2026-05-01',
      confirmed: true,
    });
    await api.graphql(
      `mutation ($input: SayWhatLineIsForInput!) { sayWhatLineIsFor(input: $input) { version } }`,
      {
        input: {
          lineId: lines[0],
          expectedVersion: 0,
          content: {
            ...saidOf({ fry: 100 }),
            traits: [{ traitId, better: 'HIGHER', low: 5, high: null, worth: 2 }],
            looks: [
              {
                show: [{ locusId: 'bl', phenotype: 'royal' }],
                ...{ wanted: true, worth: 4, required: true },
              },
            ],
          },
        },
      },
    );
    await fish('DEAD', 'MALE', { lineId: lines[0] });
    await fish('CULL', 'FEMALE', { lineId: lines[0] });
    await fish('GONE', 'MALE', { lineId: lines[0] });
    await fish('WITHDRAWN', 'FEMALE', { lineId: lines[0] });
    await fish('YOUNG', 'FEMALE', {
      hatchDate: daysAgo(20),
    });
    await fish('PLAIN', 'MALE', {});
    await fish('ODD', 'MALE', {});
    await api.graphql(
      `mutation ($input: CorrectFishInput!) { correctFish(input: $input) { id } }`,
      {
        input: { id: ids.get('ODD'), revision: 1, sex: 'UNCERTAIN' },
      },
    );
    await decide('DEAD', 'DIED', 'found on the floor');
    await decide('CULL', 'CULLED', 'bent spine');
    await decide('GONE', 'PLACED', 'to a friend');
    await api.graphql(`mutation ($input: WithdrawInput!) { withdrawFish(input: $input) { id } }`, {
      input: { id: ids.get('WITHDRAWN'), revision: 1, reason: 'entered twice' },
    });
  });
  afterAll(() => api.close());

  it('is the same in the list and on the pair’s page, for every pair and choice', async () => {
    const choices = [
      {},
      { lineIds: [lines[0]] },
      { wantClasses: ['bl:royal'], linesOfPair: 'WITHIN_FIRST' },
      { wantClasses: ['m:melano'], includePartners: true },
    ];
    let compared = 0;
    for (const input of choices) {
      const { edges, totalCount } = await list(input, 200);
      expect(edges.length).toBe(totalCount);
      expect(totalCount).toBeGreaterThan(3);
      for (const { node } of edges) {
        const { classes, ...page } = await pair(node.sire.id, node.dam.id, input);
        const { classes: inRow, ...row } = node;
        expect(page).toEqual(row);
        expect((classes as { classes: unknown }).classes).toEqual(inRow);
        compared += 1;
      }
      expect(edges.some(({ node }) => node.reasons.length > 4)).toBe(true);
      // Points hang on what the one line is for.
      const valued = edges.filter(({ node }) => node.worth.points !== 0);
      expect(valued.length).toBe('lineIds' in input ? totalCount : 0);
    }
    expect(compared).toBeGreaterThan(100);
  });

  it('tells the dead, the culled, the placed, the withdrawn and the young, and what that means for a plan', async () => {
    const told = async (s: string, d: string) =>
      Object.fromEntries(
        (await pair(ids.get(s)!, ids.get(d)!)).warnings.map(({ code, planning, text }) => [
          code,
          `${planning}: ${text}`,
        ]),
      );
    expect((await told('DEAD', 'FO1'))['DEAD']).toBe(
      'REFUSE: DEAD died on 2026-05-01 (found on the floor), so it cannot be paired.',
    );
    expect((await told('FO0', 'CULL'))['CULLED']).toMatch(/^REFUSE: .*bent spine/);
    expect((await told('FO0', 'WITHDRAWN'))['WITHDRAWN']).toMatch(/^REFUSE: .*entered twice/);
    expect((await told('GONE', 'FO1'))['PLACED']).toMatch(/^CONFIRM: .*to a friend/);
    expect((await told('FO0', 'YOUNG'))['TOO_YOUNG']).toMatch(/^CONFIRM: /);
    expect(await told('PLAIN', 'FO1')).not.toHaveProperty('PLACED');
  });

  it('refuses a plan with a fish that cannot be paired, and asks before one that may be', async () => {
    const plan = (s: string, d: string, more: object = {}) =>
      api.send<{ planPairing: { obstacles: { code: string }[] } }>(PLAN, {
        input: {
          sireId: ids.get(s),
          damId: ids.get(d),
          plannedOn: today(),
          ...more,
        },
      });
    const problem = async (s: string, d: string, more: object = {}) => {
      const { errors } = await plan(s, d, more);
      return (errors?.[0]?.extensions['fields'] as { field: string; message: string }[])[0]!;
    };
    expect(await problem('DEAD', 'FO3', { confirmed: true })).toMatchObject({ field: 'sireId' });
    expect(await problem('FO2', 'CULL', { confirmed: true })).toMatchObject({ field: 'damId' });
    expect(await problem('GONE', 'FO3')).toMatchObject({ field: 'confirmed' });
    expect((await problem('FO2', 'YOUNG')).message).toMatch(/20 days|2 weeks|weeks old.*Confirm/);
    const planned = await plan('GONE', 'FO3', { confirmed: true });
    expect(planned.errors).toBeUndefined();
    expect(planned.data?.planPairing.obstacles).toEqual([{ code: 'PLACED', planning: 'CONFIRM' }]);
    expect((await plan('PLAIN', 'FO3')).errors).toBeUndefined();
  });

  it('says how many fish stand in no pair, and names no setting that nobody can set', async () => {
    const found = await list({});
    expect(found).toMatchObject({ unsexedCount: 1, awayCount: 0, waiting: null });
    expect(found.listedCount).toBe(found.totalCount);
    const text = JSON.stringify(found.edges);
    expect(text).toMatch(/above the guide of 12\.50 %/);
    expect(text).not.toMatch(/your settings|own setting/);
  });
});
