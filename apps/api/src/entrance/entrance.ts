import express, {
  type NextFunction,
  type Request,
  type RequestHandler,
  type Response,
} from 'express';
import type { SessionService } from '../accounts/session.service.js';
import { openOperations } from '../accounts/session.guard.js';
import type { Config } from '../config/config.js';
import { toldError } from '../errors/told-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { isWithin, type JsonBounds } from '../limits/json-shape.js';
import { asksOnlyFor, isOpenDocument } from './open-document.js';
import { isAllowedHost } from '../config/reach.js';

/** Before sign-in: a name and a password. */
export const LARGEST_BODY_OPEN = 64 * 1024;
/** After it: the longest form, every input of it at its limit. */
export const LARGEST_BODY = 2 * 1024 * 1024;
/** With an operation that takes a file: one of the longest kind as a JSON text. */
export const LARGEST_BODY_WITH_FILE = 24 * 1024 * 1024;

const BOUNDS_OPEN: JsonBounds = { depth: 8, parts: 200 };
const BOUNDS: JsonBounds = { depth: 24, parts: 50_000 };

const refuse = (res: Response, status: number, code: string, message: string): void => {
  // The rest of the body is not waited for.
  res.setHeader('Connection', 'close');
  // Both kinds of caller find their form of it: GraphQL's, and that of the plain routes.
  res.status(status).json({ code, message, errors: [{ message, extensions: { code } }] });
};

const tellHost = ({ trustProxy }: Config): string =>
  `Give the address that was typed as PUBLIC_ADDRESS when you start Linewright${trustProxy ? ', and let the proxy pass the Host header on' : ''}; or use the address of the machine in numbers.`;

/** Refuses requests under a name that is not this install's: a page elsewhere may have turned its own name to this machine. */
export const expectHost =
  (config: Config, homeNames: () => readonly string[]): RequestHandler =>
  (req, res, next) => {
    if (isAllowedHost(req.headers.host, config, homeNames())) return next();
    const host = (req.headers.host ?? '').slice(0, 100);
    refuse(
      res,
      421,
      'HOST_REFUSED',
      `"${host}" is not a name of this install. ${tellHost(config)}`,
    );
  };

const isJson = (req: Request): boolean =>
  /^application\/json\b/i.test(req.headers['content-type'] ?? '');

const megabytes = (bytes: number): string =>
  bytes < 1024 * 1024 ? `${bytes / 1024} KB` : `${bytes / 1024 / 1024} MB`;

const rawBodies = (limit: number): RequestHandler =>
  express.raw({ type: isJson as never, limit, inflate: false });
const readUpTo = new Map(
  [LARGEST_BODY_OPEN, LARGEST_BODY, LARGEST_BODY_WITH_FILE].map((most) => [most, rawBodies(most)]),
);

const refuseLarge = (res: Response, most: number, signedIn: boolean): void => {
  const remedy = signedIn ? 'send less at once' : 'sign in first';
  refuse(res, 413, 'REQUEST_TOO_LARGE', `This is more than ${megabytes(most)}: ${remedy}.`);
};

/** What a body may be is known before it is read; that a large one carries a file, only after. */
const mostOf = (signedIn: boolean, graphql: boolean): number => {
  if (!signedIn) return LARGEST_BODY_OPEN;
  return graphql ? LARGEST_BODY_WITH_FILE : LARGEST_BODY;
};

const read = (req: Request, res: Response, most: number, signedIn: boolean): Promise<boolean> =>
  new Promise((resolve, reject) => {
    readUpTo.get(most)?.(req, res, (error?: unknown) => {
      const status = (error as { status?: number } | undefined)?.status;
      if (error === undefined) return resolve(true);
      if (status === undefined || status >= 500) return reject(error as Error);
      if (status === 413) refuseLarge(res, most, signedIn);
      else refuse(res, status, 'BAD_REQUEST', 'The body cannot be read: send plain JSON.');
      resolve(false);
    });
  });

const parseInto = (
  req: Request,
  res: Response,
  signedIn: boolean,
  files: () => ReadonlySet<string>,
): boolean => {
  const raw = req.body as unknown;
  if (!Buffer.isBuffer(raw) || raw.length === 0) {
    req.body = undefined;
    return true;
  }
  if (!isWithin(raw, signedIn ? BOUNDS : BOUNDS_OPEN)) {
    refuse(res, 400, 'BAD_REQUEST', 'This has too many parts inside one another.');
    return false;
  }
  try {
    req.body = JSON.parse(raw.toString('utf8')) as unknown;
    if (raw.length <= LARGEST_BODY) return true;
    const { query } = (req.body ?? {}) as { query?: unknown };
    if (asksOnlyFor(query, files())) return true;
    refuseLarge(res, LARGEST_BODY, signedIn);
    return false;
  } catch {
    refuse(res, 400, 'BAD_REQUEST', 'The body is not JSON.');
    return false;
  }
};

/** True when GraphQL may look at it without a session; a GET carries its document in the address. */
const mayRunOpen = (req: Request): boolean => {
  if (!/^\/graphql\/?$/.test(req.path)) return true;
  const { query } = (req.method === 'GET' ? req.query : (req.body ?? {})) as { query?: unknown };
  return isOpenDocument(query, openOperations);
};

/**
 * Reads JSON bodies: the session is looked up first, so that whoever has none is held to little, sent plain, not deep, and
 * to the few operations that are open to all. The rest is refused here, before a word of it is parsed or run. With a session, only a body
 * that asks for nothing but operations of `files` may be as large as a file.
 */
export const readBodies =
  (sessions: SessionService, files: () => ReadonlySet<string>): RequestHandler =>
  (req: Request & { person?: SignedInPerson | null }, res: Response, next: NextFunction) => {
    const graphql = /^\/graphql(\/|$)/.test(req.path);
    if (!graphql && (req.method === 'GET' || !isJson(req))) return next();
    const enter = async (): Promise<void> => {
      const signedIn = (await sessions.personOf(req)) !== null;
      if (!(await read(req, res, mostOf(signedIn, graphql), signedIn))) return;
      if (!parseInto(req, res, signedIn, files)) return;
      if (signedIn || mayRunOpen(req)) return next();
      refuse(res, 401, 'SIGN_IN_NEEDED', 'Sign in first: these records open only after sign-in.');
    };
    enter().catch((error: unknown) => {
      const told = toldError(error);
      if (told === null) next(error);
      else refuse(res, told.code === 'DATABASE_AWAY' ? 503 : 400, told.code, told.message);
    });
  };
