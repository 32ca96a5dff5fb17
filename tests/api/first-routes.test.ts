import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAgo, today } from '../clock.js';
import { newRecords } from '../new-records.js';
import { type RunningApi, startApi } from './harness.js';
import { holdComputations } from './held-computation.js';
import { saidOf } from './said-purpose.js';

interface Routes {
  waiting: { kind: string; state: string } | null;
  forNow: string[];
  leftOut: string[];
  routes: { key: string; simulations: number }[];
}

const ROUTES = `query ($input: RouteSearchInput!) { lineRoutes(input: $input) {
  waiting { kind state } forNow leftOut routes { key simulations } } }`;
const ADOPT = 'mutation ($input: AdoptRouteInput!) { adoptRoute(input: $input) { id } }';

describe('routes asked for before anything was worked out', () => {
  let api: RunningApi;
  let lineId = '';
  const search = () => ({ lineId, share: 0.6, generations: 3, fryPerBrood: 12 });
  const routes = async (): Promise<Routes> =>
    (await api.graphql<{ lineRoutes: Routes }>(ROUTES, { input: search() })).lineRoutes;
  const adopt = (key: string) =>
    api.send<{ adoptRoute: { id: string } }>(ADOPT, {
      input: { search: search(), key, adoptedOn: today(), expectedPurposeVersion: 1 },
    });

  beforeAll(async () => {
    // Breeding values of the smallest stock are a long computation, and long computations go one by one.
    api = await startApi({ environment: { LONG_FROM_FISH: '1' } });
    const make = newRecords(api);
    lineId = await make.createLine({ code: 'L', name: 'Line' });
    const traitId = await make.createTrait({ key: 'spread', name: 'Spread', kind: 'MEASURED' });
    for (const [k, brood] of ['A', 'B'].entries()) {
      const parent = (sex: 'MALE' | 'FEMALE') =>
        make.createFish({
          ...{ tag: `${brood} ${sex}`, sex, lineId, hatchDate: daysAgo(500) },
          disposition: 'ELSEWHERE',
        });
      const spawnId = await make.createSpawn({
        ...{ tag: brood, lineId, hatchDate: daysAgo(200) },
        ...{ sireId: await parent('MALE'), damId: await parent('FEMALE') },
      });
      for (let n = 0; n < 6; n++) {
        const fishId = await make.createFish({
          ...{ tag: `${brood}-${n}`, lineId, spawnId, disposition: 'KEEPER' },
          sex: n % 2 === 0 ? 'MALE' : 'FEMALE',
        });
        const scores = [{ traitId, value: 170 + 4 * k + ((n * 7) % 5) }];
        await make.recordScores({ fishId, scoredOn: daysAgo(20), scores });
      }
    }
    const content = saidOf({
      traits: [{ traitId, better: 'HIGHER', low: 176, high: null, worth: 1 }],
      ceiling: 0.4,
    });
    await api.graphql(
      'mutation ($input: SayWhatLineIsForInput!) { sayWhatLineIsFor(input: $input) { version } }',
      { input: { lineId, expectedVersion: 0, content } },
    );
  });
  afterAll(() => api.close());

  it('are there with the first answer, say what they rest on, and are adopted only with the values', async () => {
    const held = await holdComputations(
      api.served.databaseUrl,
      `NEW.kind = 'breeding values' AND NEW.state = 'done'`,
    );
    const first = await routes();
    expect(first.routes.length).toBeGreaterThan(3);
    expect(new Set(first.routes.map(({ simulations }) => simulations))).toEqual(new Set([16]));
    expect(first.forNow).toEqual([
      'What Spread passes on is still being worked out. For now it is taken that 28 % of its spread is inherited.',
    ]);
    expect(first.leftOut).toEqual([]);
    const refused = await adopt(first.routes[0]!.key);
    expect(refused.errors?.[0]).toMatchObject({
      message: expect.stringContaining('is still being worked out') as string,
      extensions: { code: 'VALIDATION' },
    });
    await held.release();
    let last = await routes();
    while (last.waiting !== null) {
      expect(['QUEUED', 'RUNNING']).toContain(last.waiting.state);
      await new Promise((resolve) => setTimeout(resolve, 100));
      last = await routes();
    }
    expect(last.forNow).toEqual([]);
    expect(Math.max(...last.routes.map(({ simulations }) => simulations))).toBeGreaterThan(16);
    expect((await adopt(last.routes[0]!.key)).errors).toBeUndefined();
  });
});
