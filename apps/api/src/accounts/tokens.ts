import { createHash, randomBytes } from 'node:crypto';

/** 256 random bits as text for an address or a cookie. */
export const newToken = (): string => randomBytes(32).toString('base64url');

/** What is stored of a token: SHA-256 as hex. */
export const hashToken = (token: string): string =>
  createHash('sha256').update(token).digest('hex');

/** A session or a token is noted as used at most so often, in milliseconds. */
export const SEEN_EVERY = 5 * 60_000;
