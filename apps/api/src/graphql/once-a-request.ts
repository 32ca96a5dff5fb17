import { AsyncLocalStorage } from 'node:async_hooks';
import type { ApolloServerPlugin, BaseContext } from '@apollo/server';
import type { NextFunction, Request, Response } from 'express';
import { OperationTypeNode } from 'graphql';
import { nameOfActor } from '../access/acting.js';

interface UnderWay {
  /** Answers already asked for; `null` while the request may change what they hang on. */
  kept: Map<object, Map<string, Promise<unknown>>> | null;
}

const underWay = new AsyncLocalStorage<UnderWay>();

/** Ties what is kept by `onceARequest` to each request. */
export const rememberAnswers = (_req: Request, _res: Response, next: NextFunction): void => {
  underWay.run({ kept: null }, next);
};

/** Lets answers be kept where the whole operation only reads. */
export const keepWhileReading: ApolloServerPlugin<BaseContext> = {
  requestDidStart: () =>
    Promise.resolve({
      didResolveOperation: ({ operation }) => {
        const request = underWay.getStore();
        if (request !== undefined && operation?.operation === OperationTypeNode.QUERY)
          request.kept = new Map();
        return Promise.resolve();
      },
    }),
};

/**
 * Asks once in a request that only reads, for each actor, however many fields need the answer; anew each time elsewhere,
 * since a change made by the same request must be seen by what follows it.
 *
 * @param key one object for one question
 */
export const onceARequest = <Answer>(key: object, ask: () => Promise<Answer>): Promise<Answer> => {
  const kept = underWay.getStore()?.kept ?? null;
  if (kept === null) return ask();
  // Within one request the program may ask for itself as well: what it sees is not the asker's.
  const byActor = kept.get(key) ?? new Map<string, Promise<unknown>>();
  kept.set(key, byActor);
  const actor = nameOfActor();
  const known = byActor.get(actor) as Promise<Answer> | undefined;
  if (known !== undefined) return known;
  const asked = ask();
  byActor.set(actor, asked);
  return asked;
};
