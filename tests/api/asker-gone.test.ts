import type { Worker } from 'node:worker_threads';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type RunningApi, startApi } from './harness.js';

interface Thread {
  /** Whether it came to its answer. */
  answered: boolean;
  readonly begun: Promise<void>;
  readonly ended: Promise<void>;
}

/** The next thread that the process begins. */
const nextThread = (): Thread => {
  const thread = { answered: false } as Thread & { begun: Promise<void>; ended: Promise<void> };
  let begin = (): void => undefined;
  let end = (): void => undefined;
  thread.begun = new Promise((resolve) => (begin = resolve));
  thread.ended = new Promise((resolve) => (end = resolve));
  process.once('worker', (worker: Worker) => {
    begin();
    worker.on('message', ({ kind }: { kind: string }) => (thread.answered ||= kind === 'answer'));
    worker.once('exit', end);
  });
  return thread;
};

const FIT = 'query ($input: FitInput!) { goodnessOfFit(input: $input) { method } }';
const BROOD = 'query ($input: BroodSizeInput!) { broodSize(input: $input) }';
const classes = (many: number, fish: number) => ({
  input: {
    observed: Array.from({ length: many }, (_, i) => ({
      ...{ name: `class ${i}`, observed: fish, fraction: `1/${many}` },
    })),
  },
});

describe('what a request has worked out in a thread', () => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi();
  });
  afterAll(() => api.close());

  it.each([
    ['a test of many classes', FIT, classes(200, 9), true],
    ['a test of many fish', FIT, classes(2, 99_999), true],
    ['a test of a brood', FIT, classes(4, 20), false],
    [
      'a very large brood',
      BROOD,
      { input: { fraction: '1/4', atLeast: 50_000, certainty: 0.99 } },
      true,
    ],
    ['a brood', BROOD, { input: { fraction: '1/4', atLeast: 4, certainty: 0.99 } }, false],
  ])('%s', async (_, query, variables, beside) => {
    let begun = 0;
    const count = (): void => void (begun += 1);
    process.on('worker', count);
    await api.graphql(query, variables);
    process.off('worker', count);
    expect(begun).toBe(beside ? 1 : 0);
  });

  it('ends when nobody waits for the answer any more', async () => {
    const thread = nextThread();
    const leaving = new AbortController();
    const asked = api.http('/graphql', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ query: FIT, variables: classes(200, 9) }),
      signal: leaving.signal,
    });
    await thread.begun;
    leaving.abort();
    await expect(asked).rejects.toThrow(/abort/);
    await thread.ended;
    expect(thread.answered).toBe(false);
    // Its turn is free for the next.
    expect(await api.graphql(FIT, classes(200, 9))).toHaveProperty('goodnessOfFit');
  });
});
