import { AsyncLocalStorage } from 'node:async_hooks';
import type { NextFunction, Request, Response } from 'express';
import { type Actor, actorSetting, type SystemPurpose } from './actor.js';

/** Of a request, filled in by the session guard; of other work, given at its beginning. */
interface Held {
  actor: Actor | null;
}

const held = new AsyncLocalStorage<Held>();

/** Something reached for the records without saying for whom: a fault of the program, never of a request. */
export class NobodyActs extends Error {
  readonly code = 'NOBODY_ACTS';

  constructor() {
    super(
      'Records were asked for on behalf of nobody: run the work under actAs() or asSystem(), or behind the session guard.',
    );
    this.name = 'NobodyActs';
  }
}

/**
 * For whom the work under way is done.
 *
 * @throws NobodyActs outside of a request and of `actAs`, and in a request before the session guard has let it in.
 */
export const currentActor = (): Actor => {
  const actor = held.getStore()?.actor ?? null;
  if (actor === null) throw new NobodyActs();
  return actor;
};

/** Names for whom the work under way is done, as connections are told; empty for nobody. */
export const nameOfActor = (): string => {
  const actor = held.getStore()?.actor ?? null;
  return actor === null ? '' : actorSetting(actor);
};

/** Does work for an actor, with all that it calls and waits for. A transaction begun outside keeps the actor it was begun for. */
export const actAs = <Answer>(actor: Actor, work: () => Answer): Answer =>
  held.run({ actor }, work);

/** Does work for nobody in particular; the purpose says why that is right. */
export const asSystem = <Answer>(purpose: SystemPurpose, work: () => Answer): Answer =>
  actAs({ kind: 'system', purpose }, work);

/** Ties a place for the actor to each request; whoever asks is put there by the session guard. */
export const awaitActor = (_req: Request, _res: Response, next: NextFunction): void => {
  held.run({ actor: null }, next);
};

/** Says who asks, for the rest of the request. Outside of one there is nothing to say it of. */
export const letIn = (actor: Actor): void => {
  const request = held.getStore();
  if (request !== undefined) request.actor = actor;
};
