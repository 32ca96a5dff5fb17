import { once } from 'node:events';
import { Worker } from 'node:worker_threads';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { type RunningApi, startApi } from './harness.js';

const FIT = 'query ($input: FitInput!) { goodnessOfFit(input: $input) { method pValue } }';
const BROOD = 'query ($input: BroodSizeInput!) { broodSize(input: $input) }';
const CROSS = 'query ($input: CrossInput!) { cross(input: $input) { locusIds } }';

const brood = (classes: number, fish: number) => ({
  input: {
    observed: Array.from({ length: classes }, (_, i) => ({
      ...{ name: `class ${i}`, observed: fish, fraction: `1/${classes}` },
    })),
  },
});

describe('work beside the event loop', () => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi({ demo: true });
  });
  afterAll(() => api.close());

  /** How many tasks threads were given for one request, and its answer. */
  const threadsOf = async (query: string, variables: object) => {
    const given = vi.spyOn(Worker.prototype, 'postMessage');
    const data = await api.graphql<object>(query, variables);
    const threads = given.mock.calls.length;
    given.mockRestore();
    return { threads, data };
  };

  it.each([
    ['a brood of four classes', FIT, brood(4, 20), 0],
    ['drawn broods of 200 classes', FIT, brood(200, 9), 1],
    ['100,000 outcomes', FIT, brood(2, 50_000), 1],
    ['one fish wanted', BROOD, { input: { fraction: '1/16' } }, 0],
    ['10,000 fish wanted', BROOD, { input: { fraction: '1/16', atLeast: 10_000 } }, 1],
  ])('%s', async (_, query, variables, threads) => {
    const worked = await threadsOf(query, variables);
    expect(worked.threads).toBe(threads);
    expect(Object.values(worked.data)[0]).toBeTruthy();
  });

  it('keeps a thread for the next request', async () => {
    const made: Worker[] = [];
    const note = (thread: Worker): void => void made.push(thread);
    await threadsOf(FIT, brood(200, 9));
    process.on('worker', note);
    expect((await threadsOf(FIT, brood(200, 10))).threads).toBe(1);
    process.off('worker', note);
    expect(made).toEqual([]);
  });

  it('says what is wrong with a large one as with a small one', async () => {
    const refusals = [1, 2_000].map((atLeast) =>
      api.send(BROOD, { input: { fraction: '0', atLeast } }),
    );
    const [small, large] = await Promise.all(refusals);
    expect(small?.errors?.[0]).toMatchObject({ extensions: { code: 'BROOD_SIZE_UNREACHABLE' } });
    expect(large?.errors).toEqual(small?.errors);
  });

  it('ends when whoever asked has gone, and the next in the row comes on', async () => {
    const { loci } = await api.graphql<{
      loci: { id: string; computable: boolean; own: boolean; alleles: { symbol: string }[] }[];
    }>('{ loci { id computable own alleles { symbol } } }');
    const parent = loci
      .filter(({ computable, own }) => computable && !own)
      .slice(0, 12)
      .map(({ id, alleles }) => ({
        locusId: id,
        genotype: `${alleles[0]?.symbol ?? ''}/${alleles.at(-1)?.symbol ?? ''}`,
      }));
    const leaving = new AbortController();
    const given = vi.spyOn(Worker.prototype, 'postMessage');
    const asked = api.http('/graphql', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({
        query: CROSS,
        variables: { input: { sire: parent, dam: parent, broodSize: 1_000 } },
      }),
      signal: leaving.signal,
    });
    const thread = await vi.waitUntil(() => given.mock.contexts[0] as Worker | undefined, {
      timeout: 60_000,
    });
    given.mockRestore();
    const said: unknown[] = [];
    thread.on('message', (one) => said.push(one));
    const ended = once(thread, 'exit');
    leaving.abort();
    await expect(asked).rejects.toThrow(/abort/i);
    await ended;
    // It had not come to its answer.
    expect(said).toEqual([]);
    expect((await threadsOf(FIT, brood(200, 9))).threads).toBe(1);
  });
});
