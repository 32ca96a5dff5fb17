import { AsyncLocalStorage } from 'node:async_hooks';
import type { NextFunction, Request, Response } from 'express';

const askers = new AsyncLocalStorage<AbortSignal>();

/** Ties to each request a signal that says when whoever asked is gone before the answer was. */
export const watchAsker = (_req: Request, res: Response, next: NextFunction): void => {
  const gone = new AbortController();
  res.once('close', () => {
    if (!res.writableFinished) gone.abort();
  });
  askers.run(gone.signal, next);
};

/** Says when nobody waits for the answer to the request under way; null outside of one. */
export const askerGone = (): AbortSignal | null => askers.getStore() ?? null;
