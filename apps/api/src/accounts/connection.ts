import type { Request } from 'express';
import type { Reached } from '../config/reach.js';

const COOKIE = 'linewright_session';

export const readCookie = (req: Request): string | undefined => {
  const match = new RegExp(`(?:^|;\\s*)${COOKIE}=([\\w-]+)`).exec(req.headers.cookie ?? '');
  return match?.[1];
};

/** The token of a program. */
export const readBearer = (req: Request): string | undefined =>
  /^Bearer +([\w-]+)$/i.exec(req.headers.authorization ?? '')?.[1];

export const sessionCookie = (
  token: string,
  seconds: number,
  { secure }: { secure: boolean },
): string =>
  `${COOKIE}=${token}; Path=/; HttpOnly; SameSite=Strict; Max-Age=${seconds}${secure ? '; Secure' : ''}`;

/** TLS ends here or in a trusted proxy (Express reads `X-Forwarded-Proto` only where `TRUST_PROXY` is set). */
export const connectionIsSecure = (req: Request): boolean => req.secure;

/** What is known of the way a request came. */
export const reachedBy = (req: Request): Reached => ({
  peer: req.socket.remoteAddress,
  host: req.headers.host,
  origin: req.headers.origin,
  forwarded:
    req.headers.forwarded !== undefined ||
    Object.keys(req.headers).some((name) => name.startsWith('x-forwarded-')) ||
    req.headers['x-real-ip'] !== undefined ||
    req.headers.via !== undefined,
});
