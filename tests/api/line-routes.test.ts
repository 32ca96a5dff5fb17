import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAgo } from '../clock.js';
import { newRecords } from '../new-records.js';
import { type RunningApi, startApi } from './harness.js';

interface Route {
  key: string;
  scheme: string;
  fish: { id: string; tag: string }[];
  broods: { generation: number; sire: Parent; dam: Parent }[];
  chance: number;
  standardError: number;
  low: number;
  high: number;
  byGeneration: number[];
  simulations: number;
  meanGenerations: number | null;
  meanMonths: number | null;
  fry: number;
  inbreeding: { mean: number; low: number; high: number };
  droppedAfter: number | null;
}
interface Parent {
  fish: { tag: string } | null;
  fromGeneration: number | null;
  fromBrood: number | null;
}
interface Routes {
  purposeVersion: number;
  whyNone: string | null;
  waiting: { id: string; state: string; progress: number } | null;
  routes: Route[];
  pairs: number;
  pairsTried: number;
  outcrosses: number;
  leftOut: string[];
  daysPerGeneration: number;
}
interface Fan {
  mean: number;
  standardError: number;
  median: number;
  bands: { probability: number; low: number; high: number }[];
}
interface Strategy {
  simulations: number;
  broods: number;
  effectiveSize: Fan | null;
  generations: {
    generation: number;
    inbreeding: Fan;
    kinship: Fan;
    traits: { name: string; mean: Fan }[];
    alleles: { symbol: string; stillThere: number; low: number; high: number }[];
  }[];
}
interface Forecast {
  whyNone: string | null;
  plan: Strategy | null;
  soFar: Strategy | null;
  bred: { sires: number; dams: number; broods: number } | null;
  kinshipRise: number | null;
  leftOut: string[];
}

const ROUTES = `query ($input: RouteSearchInput!) { lineRoutes(input: $input) {
  purposeVersion whyNone waiting { id state progress } pairs pairsTried outcrosses leftOut daysPerGeneration
  routes { key scheme fish { id tag } chance standardError low high byGeneration simulations meanGenerations meanMonths fry
    inbreeding { mean low high } droppedAfter
    broods { generation sire { fish { tag } fromGeneration fromBrood } dam { fish { tag } fromGeneration fromBrood } } } } }`;
const FAN = 'mean standardError median bands { probability low high }';
const STRATEGY = `simulations broods effectiveSize { ${FAN} } generations { generation inbreeding { ${FAN} } kinship { ${FAN} }
  traits { name mean { ${FAN} } } alleles { symbol stillThere low high } }`;
const FORECAST = `query ($input: LineForecastInput!) { lineForecast(input: $input) {
  whyNone bred { sires dams broods } kinshipRise leftOut plan { ${STRATEGY} } soFar { ${STRATEGY} } } }`;
const SAY =
  'mutation ($input: SayWhatLineIsForInput!) { sayWhatLineIsFor(input: $input) { version } }';

describe('where a line can go', () => {
  let api: RunningApi;
  let [lineId, otherId, traitId] = ['', '', ''];

  const content = (more: object = {}) => ({
    traits: [{ traitId, better: 'HIGHER', low: 176, high: null, worth: 1 }],
    looks: [],
    ...{ ceiling: 0.4, kinshipRise: 0.05, broods: 2, vessels: null, broodsPerFish: 2, fry: null },
    ...{ keep: 8, earliest: null, latest: null, inbreedingCost: null },
    rules: {
      ages: { capableFrom: 84, preferredFrom: 140, bestUntil: 365, fertileUntil: 540 },
      maleRest: { least: 7, preferred: 14 },
      femaleRest: { least: 14, preferred: 21 },
      bodyLengthRatio: null,
    },
    ...more,
  });
  const say = (expectedVersion: number, more: object = {}) =>
    api.graphql(SAY, { input: { lineId, expectedVersion, content: content(more), note: null } });
  const routes = async (more: object = {}): Promise<Routes> =>
    (
      await api.graphql<{ lineRoutes: Routes }>(ROUTES, {
        input: { lineId, fryPerBrood: 12, generations: 3, share: 0.6, ...more },
      })
    ).lineRoutes;
  const forecast = async (more: object = {}): Promise<Forecast> =>
    (
      await api.graphql<{ lineForecast: Forecast }>(FORECAST, {
        input: { lineId, generations: 3, fryPerBrood: 8, ...more },
      })
    ).lineForecast;
  const searched = async (more: object = {}): Promise<Routes> => {
    for (;;) {
      const found = await routes(more);
      if (found.waiting === null) return found;
      expect(['QUEUED', 'RUNNING']).toContain(found.waiting.state);
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
  };

  beforeAll(async () => {
    api = await startApi();
    const make = newRecords(api);
    lineId = await make.createLine({ code: 'L', name: 'Line' });
    otherId = await make.createLine({ code: 'O', name: 'Other' });
    traitId = await make.createTrait({ key: 'spread', name: 'Spread', kind: 'MEASURED' });
    let count = 0;
    // What is drawn by chance hangs on the order of the fish, and that on their ids.
    const nextId = () => `00000000-0000-4000-8000-${String((count += 1)).padStart(12, '0')}`;
    const parents: string[] = [];
    for (const [tag, sex] of [
      ['S1', 'MALE'],
      ['S2', 'MALE'],
      ['D1', 'FEMALE'],
      ['D2', 'FEMALE'],
    ] as const)
      // prettier-ignore
      parents.push(await make.createFish({ id: nextId(), tag, sex, lineId, disposition: 'ELSEWHERE', hatchDate: daysAgo(500) }));
    for (const [k, brood] of ['A', 'B'].entries()) {
      const spawnId = await make.createSpawn({
        tag: brood,
        lineId,
        sireId: parents[k]!,
        damId: parents[2 + k]!,
        hatchDate: daysAgo(200),
      });
      for (let n = 0; n < 6; n++) {
        const fishId = await make.createFish({
          id: nextId(),
          tag: `${brood}-${n}`,
          lineId,
          spawnId,
          sex: n % 2 === 0 ? 'MALE' : 'FEMALE',
          disposition: 'KEEPER',
        });
        await make.recordScores({
          fishId,
          scoredOn: daysAgo(20),
          scores: [{ traitId, value: 170 + 4 * k + ((n * 7) % 5) }],
        });
      }
    }
    await make.createFish({
      id: nextId(),
      tag: 'X',
      lineId: otherId,
      sex: 'FEMALE',
      disposition: 'KEEPER',
      hatchDate: daysAgo(200),
    });
  });
  afterAll(() => api.close());

  it('asks what the line is for first', async () => {
    const { whyNone, purposeVersion, routes: found } = await routes();
    expect([whyNone, purposeVersion, found]).toEqual([
      expect.stringContaining('say what the line is for'),
      0,
      [],
    ]);
  });

  it('finds routes, with chances, generations, months, fry and F', async () => {
    await say(0);
    const found = await searched();
    expect(found).toMatchObject({
      whyNone: null,
      purposeVersion: 1,
      pairs: 36,
      outcrosses: 6,
      daysPerGeneration: 154,
    });
    expect(new Set(found.routes.map(({ key }) => key)).size).toBe(found.routes.length);
    expect(new Set(found.routes.map(({ scheme }) => scheme))).toContain('TWO_SUB_LINES');
    for (const one of found.routes) {
      expect(one.standardError).toBeCloseTo(
        Math.sqrt((one.chance * (1 - one.chance)) / one.simulations),
        12,
      );
      expect(one.low).toBeLessThanOrEqual(one.chance);
      expect(one.high).toBeGreaterThanOrEqual(one.chance);
      expect(one.byGeneration.at(-1)).toBeCloseTo(one.chance, 12);
      if (one.meanGenerations !== null)
        expect(one.meanMonths).toBeCloseTo((one.meanGenerations * 154) / 30.44, 9);
      expect(one.broods[0]!.sire.fish?.tag).toBeTruthy();
    }
    const [best] = found.routes;
    expect(best!.droppedAfter).toBeNull();
    expect(best!.chance).toBe(
      Math.max(
        ...found.routes
          .filter(({ droppedAfter }) => droppedAfter === null)
          .map(({ chance }) => chance),
      ),
    );
    const apart = found.routes.find(
      ({ scheme, broods }) => scheme === 'TWO_SUB_LINES' && broods.length > 3,
    );
    expect(apart!.broods.at(-1)!.sire).toMatchObject({
      fish: null,
      fromGeneration: expect.any(Number) as number,
    });
  });

  it('gives the same answer when it is read again', async () => {
    expect(await searched()).toEqual(await searched());
  });

  it('leaves crosses to other lines out when that is asked', async () => {
    const found = await searched({ withOutcross: false });
    expect(found.outcrosses).toBe(0);
    expect(found.routes.some(({ scheme }) => scheme === 'OUTCROSS_THEN_BACK')).toBe(false);
  });

  it.each([
    ['share', 0],
    ['generations', 9],
    ['fryPerBrood', 1],
  ])('refuses %s %d', async (field, value) => {
    // prettier-ignore
    const { errors } = await api.send(ROUTES, { input: { lineId, [field]: value } });
    expect(errors?.[0]?.extensions['fields']).toMatchObject([{ field }]);
  });

  it('forecasts the plan and what was done so far', async () => {
    const found = await forecast();
    expect(found).toMatchObject({
      whyNone: null,
      kinshipRise: 0.05,
      bred: { sires: 2, dams: 2, broods: 2 },
    });
    for (const way of [found.plan!, found.soFar!]) {
      expect(way.generations.map(({ generation }) => generation)).toEqual([0, 1, 2, 3]);
      // Two broods of unrelated parents: F is 0 now, and kinship between sibs 1/4.
      expect(way.generations[0]!.inbreeding.mean).toBe(0);
      expect(way.generations[0]!.kinship.mean).toBeCloseTo((12 * 0.5 + 60 * 0.25) / 144, 12);
      for (const { traits, kinship } of way.generations) {
        expect(traits).toMatchObject([{ name: 'Spread' }]);
        const [half, , most] = kinship.bands;
        expect(most!.low).toBeLessThanOrEqual(half!.low);
        expect(most!.high).toBeGreaterThanOrEqual(half!.high);
      }
    }
    expect(found.plan!.generations.at(-1)!.kinship.mean).toBeGreaterThan(
      found.plan!.generations[0]!.kinship.mean,
    );
    expect(await forecast()).toEqual(found);
  });

  it('says what was left out of it', async () => {
    await say(1, {
      looks: [
        { show: [{ locusId: 'bl', phenotype: 'royal' }], wanted: true, worth: 1, required: true },
      ],
    });
    expect((await forecast()).leftOut.join()).toContain('royal is not counted');
    await say(2);
  });

  it('can be stopped, and keeps what it has found', async () => {
    const asked = { share: 0.95, generations: 8, fryPerBrood: 200 };
    const first = await routes(asked);
    for (
      let found = first;
      found.routes.length === 0 && found.waiting !== null;
      found = await routes(asked)
    )
      await new Promise((resolve) => setTimeout(resolve, 50));
    await api.graphql('mutation ($id: ID!) { cancelComputation(id: $id) { state } }', {
      id: first.waiting!.id,
    });
    for (;;) {
      const { waiting, routes: found } = await routes(asked);
      expect(waiting).not.toBeNull();
      if (waiting!.state !== 'CANCELLED') continue;
      expect(found.length).toBeGreaterThan(0);
      expect(found.some(({ simulations }) => simulations > 0)).toBe(true);
      break;
    }
  });
});
