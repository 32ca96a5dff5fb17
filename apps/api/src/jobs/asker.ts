import { AsyncLocalStorage } from 'node:async_hooks';
import type { NextFunction, Request, Response } from 'express';
import { RequestError } from '../errors/request-error.js';

const gone = new AsyncLocalStorage<AbortSignal>();

/** Ties to each request whether whoever asked still waits for its answer. */
export const watchAsker = (_req: Request, res: Response, next: NextFunction): void => {
  const leaving = new AbortController();
  res.once('close', () => {
    if (!res.writableFinished)
      leaving.abort(
        new RequestError('JOB_CANCELLED', 'Nobody waited for this any more, so it was stopped.'),
      );
  });
  gone.run(leaving.signal, next);
};

/** Aborted when whoever asked has gone; none outside of a request. */
export const askerGone = (): AbortSignal | undefined => gone.getStore();
