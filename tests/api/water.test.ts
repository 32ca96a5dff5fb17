import { randomUUID } from 'node:crypto';
import { ammoniaIn, ammoniaNitrogen, changeAdvice, planChange } from '@linewright/care';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { hoursAgo } from '../clock.js';
import { type NewRecords, newRecords } from '../new-records.js';
import { type RunningApi, startApi } from './harness.js';

const RECORD = `mutation ($input: RecordWaterInput!) { recordWater(input: $input) {
  id vessel revision totalAmmonia ammoniaUnit pH celsius nitriteForm spawn { tag }
  standing notComputed trust { state hoursLeft }
  unionised { asN asNH3 totalAsN share pKa beyondTables }
  change { outcome steps shareOfEachStep afterEachAsNH3 worstOnTheWayAsNH3 afterUsualAsNH3
    raisedToAtMostAsNH3 warnings remedy cautions } } }`;
const ALERTS =
  '{ waterAlerts { kind severity message cautions place { name vessel spawn { tag } } } }';
const SURVIVAL = `query ($id: ID!, $from: SurvivalStart, $line: Boolean) {
  spawnSurvival(spawnId: $id, from: $from, sameLine: $line) {
    from possible started startedOn left lastDay pastSpawns pastFish
    days { day died missing culled placed since } warnings { code day message }
    allLosses { steps { day atRisk deaths withdrawn survival standardError low high }
      pooled { day survival } band { day spawns low middle high }
      comparison { day here place band { low high } } }
    deathsOnly { steps { day atRisk deaths withdrawn survival } } } }`;

const dayOf = (offset: number): string =>
  new Date(Date.UTC(2026, 2, 1 + offset)).toISOString().slice(0, 10);

interface Reading {
  readonly id: string;
  readonly standing: string;
  readonly revision: number;
  readonly notComputed: string | null;
  readonly trust: { state: string; hoursLeft: number };
  readonly unionised: { asN: number; asNH3: number; totalAsN: number; share: number } | null;
  readonly change: {
    outcome: string;
    steps: number | null;
    shareOfEachStep: number | null;
    afterEachAsNH3: number[];
    worstOnTheWayAsNH3: number | null;
    afterUsualAsNH3: number | null;
    raisedToAtMostAsNH3: number | null;
    warnings: string[];
    remedy: string;
    cautions: string[];
  } | null;
}

type Stage = Parameters<NewRecords['recordSpawnCount']>[0]['stage'];
type LossKind = Parameters<NewRecords['recordSpawnLoss']>[0]['kind'];

describe('water', () => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi();
  });
  afterAll(() => api.close());

  const record = async (vessel: string, hours: number, figures: object): Promise<Reading> =>
    (
      await api.graphql<{ recordWater: Reading }>(RECORD, {
        input: { vessel, takenAt: hoursAgo(hours), figures },
      })
    ).recordWater;

  it('computes un-ionised ammonia with units kept straight', async () => {
    const one = { totalAmmonia: 1, pH: 8, celsius: 24 };
    const asN = await record('Tub 1', 1, { ...one, ammoniaUnit: 'N' });
    expect(asN.unionised?.share).toBeCloseTo(0.0502, 4);
    expect(asN.unionised?.asN).toBeCloseTo(0.0502, 4);
    const asNH4 = await record('Tub 1', 0.5, { ...one, ammoniaUnit: 'NH4' });
    expect(asNH4.unionised?.totalAsN).toBeCloseTo(1 / 1.2879, 4);
    expect(asNH4.unionised?.asNH3).toBeCloseTo((0.0502 / 1.2879) * 1.2159, 4);
    expect(asN.standing).toBe('OVER');
    expect(asN.change?.afterEachAsNH3.at(-1)).toBeLessThanOrEqual(0.02 + 1e-9);
    expect(asN.trust).toMatchObject({ state: 'FRESH' });
  });

  it('says what is missing instead of guessing', async () => {
    const half = await record('Jar 9', 2, { totalAmmonia: 0.5, ammoniaUnit: 'NH4', celsius: 26 });
    expect(half).toMatchObject({ standing: 'UNKNOWN', unionised: null, change: null });
    expect(half.notComputed).toContain('pH');
  });

  it('refuses a figure without its unit, an impossible one, none at all, and a place that is no place', async () => {
    const fieldOf = async (input: object): Promise<unknown> => {
      const { errors } = await api.send(RECORD, { input });
      expect(errors?.[0]?.extensions.code).toBe('VALIDATION');
      return (errors?.[0]?.extensions['fields'] as { field: string }[])[0]?.field;
    };
    const at = { takenAt: hoursAgo(1), vessel: 'Tub 1' };
    expect(await fieldOf({ ...at, figures: { totalAmmonia: 1 } })).toBe('ammoniaUnit');
    expect(await fieldOf({ ...at, figures: { nitrite: 1 } })).toBe('nitriteForm');
    expect(await fieldOf({ ...at, figures: { pH: 14 } })).toBe('pH');
    for (const pH of [0, 14, 15, -1]) expect(await fieldOf({ ...at, figures: { pH } })).toBe('pH');
    for (const celsius of [-2, 51, 78])
      expect(await fieldOf({ ...at, figures: { celsius } })).toBe('celsius');
    const { errors } = await api.send(RECORD, { input: { ...at, figures: { celsius: 78 } } });
    expect(errors?.[0]?.message).toBe(
      'The temperature (°C) is "78": give a value from 0 to 50, or leave it blank. If it was read in °F: that is 25.6 °C.',
    );
    expect(await fieldOf({ ...at, figures: {} })).toBe('totalAmmonia');
    expect(await fieldOf({ takenAt: hoursAgo(1), figures: { pH: 7 } })).toBe('vessel');
    expect(await fieldOf({ ...at, takenAt: hoursAgo(-48), figures: { pH: 7 } })).toBe('takenAt');
  });

  it('sent twice it is recorded once; corrected and withdrawn with a history', async () => {
    const id = randomUUID();
    const input = { id, vessel: 'Tub 2', takenAt: hoursAgo(3), figures: { pH: 7, celsius: 27 } };
    await api.graphql(RECORD, { input });
    await api.graphql(RECORD, { input });
    interface Listed {
      edges: { node: { id: string; pH: number; history: { action: string }[] } }[];
    }
    const list = async () => {
      const { waterReadings } = await api.graphql<{ waterReadings: Listed }>(
        '{ waterReadings(vessel: "Tub 2") { edges { node { id pH history { action } } } } }',
      );
      return waterReadings.edges.map(({ node }) => node);
    };
    expect(await list()).toHaveLength(1);
    const correct = `mutation ($input: CorrectWaterInput!) { correctWater(input: $input) { revision } }`;
    const corrected = { id, revision: 1, takenAt: input.takenAt, figures: { pH: 7.2 } };
    await api.graphql(correct, { input: corrected });
    const again = await api.send(correct, { input: corrected });
    expect(again.errors?.[0]?.extensions.code).toBe('CONFLICT_REVISION');
    expect((await list())[0]).toMatchObject({
      pH: 7.2,
      history: [{ action: 'corrected' }, { action: 'recorded' }],
    });
    await api.graphql(
      'mutation ($input: WithdrawInput!) { withdrawWater(input: $input) { withdrawn { reason } } }',
      { input: { id, reason: 'wrong tub' } },
    );
    expect(await list()).toEqual([]);
  });

  it('raises alerts from the newest reading of each water only, by the person’s rule', async () => {
    await record('Tub 3', 40, { totalAmmonia: 3, ammoniaUnit: 'N', pH: 8, celsius: 28 });
    await record('Tub 3', 30, { totalAmmonia: 0.1, ammoniaUnit: 'N', pH: 7, celsius: 28 });
    await record('Tub 4', 1, {
      totalAmmonia: 0.1,
      ammoniaUnit: 'N',
      pH: 7,
      celsius: 28,
      nitrite: 0.3,
      nitriteForm: 'ION',
      nitrate: 12,
      nitrateForm: 'N',
    });
    await record('Long gone', 24 * 30, { totalAmmonia: 9, ammoniaUnit: 'N', pH: 8, celsius: 28 });
    const alerts = async () =>
      (
        await api.graphql<{
          waterAlerts: {
            kind: string;
            severity: string;
            message: string;
            cautions: string[];
            place: { name: string };
          }[];
        }>(ALERTS)
      ).waterAlerts;
    const of = async (name: string) =>
      (await alerts()).filter(({ place }) => place.name === name).map(({ kind }) => kind);
    expect(await of('Tub 1')).toEqual(['AMMONIA_OVER']);
    expect(await of('Tub 3')).toEqual(['READING_OLD']);
    expect(await of('Tub 4')).toEqual(['NITRITE', 'NITRATE']);
    for (const alert of (await alerts()).filter(({ place }) => place.name === 'Tub 4')) {
      expect(alert.message).toContain('Change about a quarter of the water');
      expect(alert.cautions.join(' ')).toContain('not chloramine');
    }
    const nitrite = (await alerts()).find(({ kind }) => kind === 'NITRITE');
    expect(nitrite?.message).toContain('Do not add salt');
    expect(await of('Long gone')).toEqual([]);
    expect((await alerts())[0]).toMatchObject({ severity: 'stop', kind: 'AMMONIA_OVER' });
    await api.graphql(
      'mutation ($input: WaterRuleInput!) { setWaterRule(input: $input) { limit own } }',
      { input: { limit: 0.5, limitUnit: 'NH3', trustHours: 48 } },
    );
    expect(await of('Tub 1')).toEqual([]);
    expect(await of('Tub 3')).toEqual([]);
    const refused = await api.send(
      'mutation ($input: WaterRuleInput!) { setWaterRule(input: $input) { limit } }',
      { input: { limit: 0.02, limitUnit: 'NH3', trustHours: 0 } },
    );
    expect(refused.errors?.[0]?.extensions.code).toBe('VALIDATION');
  });

  it('plans the change with the person’s own water, and warns of a higher pH', async () => {
    await api.graphql(
      'mutation ($input: WaterRuleInput!) { setWaterRule(input: $input) { sourcePH } }',
      { input: { limit: 0.02, limitUnit: 'NH3', trustHours: 24, sourcePH: 8, sourceCelsius: 20 } },
    );
    const reading = await record('Tub 5', 1, {
      totalAmmonia: 1,
      ammoniaUnit: 'N',
      pH: 7.2,
      celsius: 27,
    });
    expect(reading.standing).toBe('NEAR');
    const worse = await record('Tub 5', 0.5, {
      totalAmmonia: 2,
      ammoniaUnit: 'N',
      pH: 7.6,
      celsius: 27,
    });
    expect(worse.change?.warnings).toEqual(['PH_RISES', 'TEMPERATURE_DIFFERS']);
    expect(worse.change).toMatchObject({ outcome: 'WORSE_ON_THE_WAY', steps: null });
  });

  it('tells on Today what the page of the water tells, and both what the library reckons', async () => {
    const limit = ammoniaNitrogen(0.02, 'NH3');
    const rule = { limit: 0.02, limitUnit: 'NH3', trustHours: 24 };
    const cases = [
      // Steps would stand at 2.5 times the start after the first.
      { tank: [1, 7.5, 28], tap: 8.2, kind: 'AMMONIA_OVER', outcome: 'WORSE_ON_THE_WAY' },
      { tank: [1, 7.5, 28], tap: 7.5, kind: 'AMMONIA_OVER', outcome: 'OFFERED' },
      { tank: [1, 7.5, 28], tap: null, kind: 'AMMONIA_OVER', outcome: 'OFFERED' },
      // Well now, eight times the limit after a usual change.
      { tank: [3, 6.5, 27], tap: 8, kind: 'NEW_WATER', outcome: 'NOT_NEEDED' },
    ] as const;
    for (const [n, { tank, tap, kind, outcome }] of cases.entries()) {
      await api.graphql(
        'mutation ($input: WaterRuleInput!) { setWaterRule(input: $input) { own } }',
        { input: { ...rule, sourcePH: tap } },
      );
      const [totalAmmonia, pH, celsius] = tank;
      const vessel = `Told ${n}`;
      const figures = { totalAmmonia, ammoniaUnit: 'N', pH, celsius };
      const { change } = await record(vessel, 0.5, figures);
      const plan = planChange(
        { total: ammoniaNitrogen(totalAmmonia, 'N'), pH, celsius },
        { total: ammoniaNitrogen(0, 'N'), pH: tap, celsius: null },
        limit,
      );
      const { remedy, cautions } = changeAdvice(plan);
      expect(change).toMatchObject({ outcome, remedy, cautions, steps: plan.steps?.times ?? null });
      expect(change?.afterEachAsNH3).toEqual(
        (plan.steps?.after ?? []).map((water) => ammoniaIn(water.unionisedAtMost, 'NH3')),
      );
      expect(change?.afterUsualAsNH3 ?? null).toBe(
        plan.rise === null ? null : ammoniaIn(plan.rise.afterUsual, 'NH3'),
      );
      const { waterAlerts } = await api.graphql<{
        waterAlerts: {
          kind: string;
          message: string;
          cautions: string[];
          place: { name: string };
        }[];
      }>(ALERTS);
      const told = waterAlerts.filter(({ place }) => place.name === vessel);
      expect(told).toMatchObject([{ kind, cautions }]);
      if (outcome !== 'NOT_NEEDED') expect(told[0]?.message).toContain(remedy);
    }
  });

  it('is for nobody without a session', async () => {
    const answer = await fetch(`${api.url}/graphql`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ query: ALERTS }),
    });
    expect(JSON.stringify(await answer.json())).toContain('SIGN_IN_NEEDED');
  });
});

describe('survival of a spawn', () => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi();
  });
  afterAll(() => api.close());

  const spawn = async (
    tag: string,
    day: number,
    counts: readonly (readonly [Stage, number, number])[],
    losses: readonly (readonly [LossKind, number, number])[] = [],
  ): Promise<string> => {
    const spawnId = await newRecords(api).createSpawn({
      tag,
      spawnedOn: dayOf(day - 2),
      hatchDate: dayOf(day),
    });
    for (const [stage, at, number] of counts) {
      await newRecords(api).recordSpawnCount({
        spawnId,
        stage,
        countedOn: dayOf(day + at),
        number,
      });
    }
    for (const [kind, at, number] of losses) {
      await newRecords(api).recordSpawnLoss({
        spawnId,
        kind,
        on: dayOf(day + at),
        number,
        reason: 'test',
        heritable: false,
      });
    }
    return spawnId;
  };
  type Survival = {
    started: number | null;
    left: number;
    from: string;
    possible: string[];
    pastSpawns: number;
    pastFish: number;
    days: object[];
    warnings: { code: string; message: string }[];
    allLosses: {
      steps: { day: number; survival: number; low: number | null; high: number | null }[];
      band: { spawns: number }[];
      comparison: { place: string; day: number } | null;
    } | null;
    deathsOnly: { steps: { survival: number }[] } | null;
  };
  const survival = async (id: string, from: string | null = null): Promise<Survival> =>
    (await api.graphql<{ spawnSurvival: Survival }>(SURVIVAL, { id, from, line: false }))
      .spawnSurvival;

  it('keeps culls apart from deaths, and takes placed fish out alive', async () => {
    const id = await spawn(
      'K26-01',
      0,
      [
        ['EGGS', -2, 150],
        ['HATCHED', 0, 100],
        ['TWO_WEEKS', 14, 80],
      ],
      [
        ['DIED', 0, 50],
        ['CULLED', 30, 20],
        ['PLACED', 40, 10],
        ['DIED', 50, 10],
      ],
    );
    const found = await survival(id);
    expect(found).toMatchObject({ started: 100, left: 40, warnings: [], from: 'HATCHED' });
    expect(found.days[0]).toMatchObject({ day: 14, missing: 20, since: 0 });
    expect(found.allLosses?.steps.at(-1)?.survival).toBeCloseTo(0.8 * (60 / 80) * (40 / 50), 10);
    expect(found.deathsOnly?.steps.at(-1)?.survival).toBeCloseTo(0.8 * (40 / 50), 10);
    expect(found.allLosses?.steps[0]?.low).toBeGreaterThan(0.7);
    const eggs = await survival(id, 'EGGS');
    expect(eggs.started).toBe(150);
    expect(eggs.allLosses?.steps[0]).toMatchObject({ day: 2 });
    expect(eggs.possible).toEqual(['EGGS', 'HATCHED']);
  });

  it('compares with the person’s own earlier spawns', async () => {
    for (const [i, left] of [60, 64, 70].entries()) {
      await spawn(`K26-1${i}`, 60 + i * 10, [
        ['HATCHED', 0, 100],
        ['TWO_WEEKS', 14, left],
      ]);
    }
    const poor = await survival(
      await spawn('K26-20', 120, [
        ['HATCHED', 0, 100],
        ['TWO_WEEKS', 14, 20],
      ]),
    );
    expect(poor).toMatchObject({ pastSpawns: 4, pastFish: 400 });
    expect(poor.allLosses?.band[0]?.spawns).toBe(4);
    expect(poor.allLosses?.comparison).toMatchObject({ place: 'BELOW', day: 14 });
  });

  it('warns of counts that rise and hides nothing', async () => {
    const id = await spawn(
      'K26-30',
      200,
      [
        ['EGGS', -2, 80],
        ['HATCHED', 0, 100],
        ['TWO_WEEKS', 14, 60],
        ['JARRED', 50, 70],
      ],
      [['PLACED', 60, 90]],
    );
    const { warnings, left } = await survival(id);
    expect(warnings.map(({ code }) => code)).toEqual([
      'COUNT_ROSE',
      'MORE_LOST_THAN_THERE',
      'COUNT_ROSE',
    ]);
    expect(warnings[0]?.message).toContain('70 counted (jarred)');
    expect(warnings[2]?.message).toContain('100 hatched of 80 eggs');
    expect(left).toBe(0);
  });

  it('starts from the largest count of a stage, and takes what was counted later from there', async () => {
    // Half of them in the evening, all by the next morning, recounted the same day and again before they swam.
    const id = await spawn('K26-31', 205, [
      ['EGGS', 1, 130],
      ['HATCHED', 0, 60],
      ['HATCHED', 1, 110],
      ['HATCHED', 1, 100],
      ['HATCHED', 3, 80],
      ['FREE_SWIMMING', 1, 90],
      ['TWO_WEEKS', 0, 70],
    ]);
    const found = await survival(id);
    expect(found).toMatchObject({ started: 100, left: 80, from: 'HATCHED' });
    expect(found.allLosses?.steps.map(({ day, survival: alive }) => [day, alive])).toEqual([
      [0, 0.9],
      [2, expect.closeTo(0.8, 12)],
    ]);
    expect(found.warnings).toMatchObject([
      { code: 'COUNT_TOO_EARLY', message: expect.stringContaining('70 two weeks counted on') },
    ]);
    // Counted on the day of the hatch, the eggs lack what did not hatch from that day on.
    expect((await survival(id, 'EGGS')).allLosses?.steps[0]).toMatchObject({
      day: 0,
      survival: expect.closeTo(90 / 130, 12),
    });
  });

  it('has nothing to draw without a count, and says from which counts it could', async () => {
    const found = await survival(await spawn('K26-40', 210, []));
    expect(found).toMatchObject({ started: null, allLosses: null, possible: [], warnings: [] });
  });
});
