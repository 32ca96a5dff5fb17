import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAgo } from '../clock.js';
import { recordsOf, type RunningApi, startApi } from './harness.js';
import {
  ALWAYS_LONG,
  AT_ONCE,
  joined,
  MERIT,
  type Merit,
  ScoredStock,
  workedOut,
} from './scored-stock.js';

/** Each in its turn on the same records. */
const CHANGES: readonly (readonly [what: string, change: (stock: ScoredStock) => Promise<void>])[] =
  [
    ['a score more', (stock) => stock.score('RED', 171, 10)],
    [
      'a corrected score',
      (stock) =>
        stock.change('correctScore', 'CorrectScoreInput', {
          ...{ scoreId: stock.scores.get('A-1'), value: 150, reason: 'Read wrongly.' },
        }),
    ],
    [
      'a withdrawn score',
      (stock) =>
        stock.change('withdrawScore', 'WithdrawInput', {
          ...{ id: stock.scores.get('B-2'), reason: 'Another fish.', revision: 1 },
        }),
    ],
    ['a sex', (stock) => stock.correct('fish', 'A-2', { sex: 'MALE' })],
    ['another dam of a brood', (stock) => stock.correct('spawn', 'B', { damId: stock.id('GREY') })],
    ['a day of hatching', (stock) => stock.correct('fish', 'A-3', { hatchDate: daysAgo(150) })],
    ['a brood', (stock) => stock.correct('fish', 'B-8', { spawnId: stock.id('A') })],
    [
      'a setting',
      (stock) =>
        stock.change('setTraitModel', 'SetTraitModelInput', {
          ...{ traitId: stock.traitId, revision: 0, prior: 'FLAT' },
        }),
    ],
  ];

describe.each([
  ['within a request', AT_ONCE],
  ['as a long computation', ALWAYS_LONG],
])('breeding values worked out %s', (_, longFromFish) => {
  let api: RunningApi;
  let other: RunningApi;
  let stock: ScoredStock;
  beforeAll(async () => {
    api = await startApi({ environment: { LONG_FROM_FISH: longFromFish } });
    stock = new ScoredStock(api);
    await stock.fill();
    other = await joined(api, longFromFish);
  });
  afterAll(async () => {
    await other.close();
    await api.close();
  });

  it.each(CHANGES)('are new after %s', async (_what, change) => {
    const before = await workedOut(api, stock.traitId);
    await change(stock);
    const after = await workedOut(api, stock.traitId);
    expect(after).not.toEqual(before);
    expect(after.values).not.toEqual(before.values);
  });

  it('are then what a process says that has seen nothing of what was before', async () => {
    const after = await workedOut(api, stock.traitId);
    await (await recordsOf(api)).query('DELETE FROM computation');
    const fresh = await joined(api, AT_ONCE);
    expect(await workedOut(fresh, stock.traitId)).toEqual(after);
    await fresh.close();
  });

  it('are not worked out again for a note, which no figure rests on', async () => {
    const db = await recordsOf(api);
    const before = await workedOut(api, stock.traitId);
    await stock.correct('fish', 'A-5', { note: 'Eats well.' });
    const { traitMerit } = await api.graphql<{ traitMerit: Merit }>(MERIT, { id: stock.traitId });
    expect(traitMerit).toEqual(before.merit);
    const [{ count }] = (await db.query(
      `SELECT count(*)::int FROM computation WHERE subject = $1`,
      [stock.traitId],
    )) as [{ count: number }];
    expect(count).toBe(1);
  });

  it('are served by another process from what is stored, and not made again', async () => {
    const db = await recordsOf(api);
    await workedOut(api, stock.traitId);
    // Marked, so that it can be told from one that is worked out anew.
    await db.query(
      `UPDATE computation SET result = jsonb_set(result, '{linear,heritability,mean}', '0.125')
       WHERE subject = $1 AND state = 'done'`,
      [stock.traitId],
    );
    const { merit } = await workedOut(other, stock.traitId);
    expect(merit.result?.linear?.heritability.mean).toBe(0.125);
  });

  it('stand in the list of long computations only when they were one', async () => {
    await stock.score('A-4', 169, 3);
    await workedOut(api, stock.traitId);
    const { computations } = await api.graphql<{
      computations: { edges: { node: { subject: string } }[] };
    }>('{ computations(first: 50) { edges { node { subject } } } }');
    const listed = computations.edges.filter(({ node }) => node.subject === stock.traitId);
    expect(listed).toHaveLength(longFromFish === ALWAYS_LONG ? 1 : 0);
  });
});
