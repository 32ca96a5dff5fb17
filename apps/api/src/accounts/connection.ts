import type { Request } from 'express';

const COOKIE = 'linewright_session';

export const readCookie = (req: Request): string | undefined => {
  const match = new RegExp(`(?:^|;\\s*)${COOKIE}=([\\w-]+)`).exec(req.headers.cookie ?? '');
  return match?.[1];
};

export const sessionCookie = (
  token: string,
  seconds: number,
  { secure }: { secure: boolean },
): string =>
  `${COOKIE}=${token}; Path=/; HttpOnly; SameSite=Strict; Max-Age=${seconds}${secure ? '; Secure' : ''}`;

/** TLS ends here or in a trusted proxy (Express reads `X-Forwarded-Proto` only where `TRUST_PROXY` is set). */
export const connectionIsSecure = (req: Request): boolean => req.secure;

const loopback = (address: string | undefined): boolean =>
  address !== undefined && /^(::1|(::ffff:)?127\.\d+\.\d+\.\d+)$/.test(address);

/** True when the request comes from this machine itself: its own address, and nothing forwarded through a proxy. */
export const addressIsLoopback = (req: Request): boolean =>
  loopback(req.socket.remoteAddress) &&
  loopback(req.ip) &&
  req.headers['x-forwarded-for'] === undefined &&
  req.headers.forwarded === undefined &&
  /^(localhost|127\.\d+\.\d+\.\d+|\[::1\])(:\d+)?$/.test(req.headers.host ?? '');
