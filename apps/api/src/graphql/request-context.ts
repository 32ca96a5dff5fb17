import type { Request, Response } from 'express';

/** Who is asking, as the session cookie says. */
export interface SignedInKeeper {
  readonly id: string;
  readonly name: string;
}

/** One GraphQL request: loaders and the session are tied to it and forgotten with it. */
export interface RequestContext {
  readonly req: Request & { keeper?: SignedInKeeper | null };
  readonly res: Response;
}
