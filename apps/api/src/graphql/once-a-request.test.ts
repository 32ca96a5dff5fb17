import { AsyncResource } from 'node:async_hooks';
import type { Request, Response } from 'express';
import { expect, it } from 'vitest';
import { actAs, asSystem } from '../access/acting.js';
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

it('asks anew for another actor within the same request: what each sees is not the same', async () => {
  let asked = 0;
  const key = {};
  const ask = () => onceARequest(key, () => Promise.resolve(++asked));
  const partner = { kind: 'account', id: 'p', name: 'Partner', role: 'partner' } as const;
  await reading(async () => {
    expect(await actAs(partner, ask)).toBe(1);
    expect(await asSystem('club', ask)).toBe(2);
    expect(await actAs(partner, ask)).toBe(1);
  });
});
