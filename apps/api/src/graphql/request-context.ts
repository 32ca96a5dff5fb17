import type { Request, Response } from 'express';
import type { AccountActor } from '../access/actor.js';

/** Who is asking, as the session cookie says. */
export type SignedInPerson = Omit<AccountActor, 'kind'>;

/** One GraphQL request: loaders and the session are tied to it and forgotten with it. */
export interface RequestContext {
  readonly req: Request & { person?: SignedInPerson | null };
  readonly res: Response;
}
