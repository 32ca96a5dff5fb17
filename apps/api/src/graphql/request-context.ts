import type { Request, Response } from 'express';
import type { AccountActor } from '../access/actor.js';

/** Who is asking, as the session cookie says. */
export interface SignedInPerson extends Omit<AccountActor, 'kind'> {
  /** Id of the person whose records they keep: those of the household keep the owner's; others, their own. */
  readonly keepsFor: string;
  /** Set where a program asks by a token, with what that lets it do. */
  readonly program?: { readonly mayRecord: boolean };
}

/** One GraphQL request: loaders and the session are tied to it and forgotten with it. */
export interface RequestContext {
  readonly req: Request & { person?: SignedInPerson | null };
  readonly res: Response;
}
