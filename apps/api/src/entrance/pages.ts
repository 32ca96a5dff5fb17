import { existsSync } from 'node:fs';
import { join } from 'node:path';
import compression from 'compression';
import type { Request, RequestHandler, Response } from 'express';
import sirv from 'sirv';
import { isLoopback } from '../config/reach.js';

/** A file with a hash of what it holds in its name never changes. */
const NEVER_CHANGES = 'public,max-age=31536000,immutable';
/** A browser that keeps other files unasked would miss that there is a newer version. */
const ALWAYS_ASK = 'no-cache';

const NOT_PAGES = /^\/(graphql|export|healthz|calendar|photos)(\/|$)/;

/** Answers that are text go out compressed, by brotli or gzip; not to a browser on this machine, where it costs more than it saves. */
export const smallerAnswers = (): RequestHandler =>
  compression({
    filter: (req: Request, res: Response) =>
      !isLoopback(req.ip ?? '') && compression.filter(req as never, res as never),
  }) as unknown as RequestHandler;

/**
 * The built viewer: its files as they were compressed when it was built, and its one page under every address of a screen.
 * None where it was not built.
 * @param folder the built viewer's, with `index.html` in it.
 */
export const viewerPages = (folder: string): RequestHandler[] => {
  const page = join(folder, 'index.html');
  if (!existsSync(page)) return [];
  const files = sirv(folder, {
    ...{ etag: true, brotli: true, gzip: true },
    // Looked up at each request: what is built anew under a running server is not sent at the length of what was there.
    dev: true,
    setHeaders: (res, path) => {
      res.setHeader('Cache-Control', path.startsWith('/assets/') ? NEVER_CHANGES : ALWAYS_ASK);
    },
  });
  return [
    // Without the page itself, which every screen's address answers with.
    (req, res, next) => {
      if (req.path === '/' || /\.(br|gz)$/.test(req.path)) next();
      else files(req, res, next);
    },
    (req, res, next) => {
      const asksForPage = req.method === 'GET' && req.accepts(['html', 'json']) === 'html';
      if (!asksForPage || NOT_PAGES.test(req.path)) return next();
      res.setHeader('Cache-Control', ALWAYS_ASK);
      res.sendFile(page);
    },
  ];
};
