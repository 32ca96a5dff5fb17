import { AsyncLocalStorage } from 'node:async_hooks';
import type { NextFunction, Request, Response } from 'express';

/** Header in which the viewer says in which time zone its device is. */
export const ZONE_HEADER = 'linewright-zone';

const asking = new AsyncLocalStorage<string | undefined>();

/** The zone that the request under way was sent from; `undefined` outside of a request, or where it named none. */
export const askingZone = (): string | undefined => asking.getStore();

const isZone = (name: string): boolean => {
  try {
    new Intl.DateTimeFormat('en', { timeZone: name });
    return true;
  } catch {
    return false;
  }
};

/** What a header says: `undefined` for a name that this server's list of zones does not have. */
export const zoneOf = (header: string | readonly string[] | undefined): string | undefined =>
  typeof header === 'string' && header.length <= 64 && isZone(header) ? header : undefined;

/** Ties the zone of each request to all that is done for it. */
export const rememberZone = (req: Request, _res: Response, next: NextFunction): void => {
  asking.run(zoneOf(req.headers[ZONE_HEADER]), next);
};
