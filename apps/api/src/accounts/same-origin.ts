import type { Request } from 'express';
import { RequestError } from '../errors/request-error.js';

/**
 * Refuses what another site's page sent with this person's cookie. The cookie is `SameSite=Strict` and a PUT needs a permission that this
 * server gives nobody, so this is the third lock on the door. Programs without a browser send neither header.
 */
export const expectSameOrigin = (req: Request): void => {
  const site = req.headers['sec-fetch-site'];
  const origin = req.headers.origin;
  const fromHere =
    site === undefined
      ? origin === undefined || (URL.canParse(origin) && new URL(origin).host === req.host)
      : site === 'same-origin' || site === 'none';
  if (fromHere) return;
  throw new RequestError(
    'ORIGIN_REFUSED',
    `Pictures are taken only from this server's own pages, not from ${origin ?? 'another site'}.`,
  );
};
