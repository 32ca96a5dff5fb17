import { AsyncResource } from 'node:async_hooks';
import type { Request, Response } from 'express';
import { expect, it } from 'vitest';
import { keepWhileReading, onceARequest, rememberAnswers } from './once-a-request.js';

/** Runs `work` as a request that only reads runs. */
const reading = async <Answer>(work: () => Promise<Answer>): Promise<Answer> =>
  new Promise<Answer>((resolve, reject) => {
    rememberAnswers({} as Request, {} as Response, () => {
      void (async () => {
        const hooks = await keepWhileReading.requestDidStart?.({} as never);
        await hooks?.didResolveOperation?.({ operation: { operation: 'query' } } as never);
        return work();
      })().then(resolve, reject);
    });
  });

it('asks once in a request that reads, and anew for work that a request only set going', async () => {
  let asked = 0;
  const key = {};
  const ask = () => onceARequest(key, () => Promise.resolve(++asked));
  // As the queue of long computations does.
  const outside = new AsyncResource('test');
  await reading(async () => {
    expect([await ask(), await ask()]).toEqual([1, 1]);
    expect(await outside.runInAsyncScope(ask)).toBe(2);
    expect(await ask()).toBe(1);
  });
});
