import { z } from 'zod';
import { RequestError } from '../../errors/request-error.js';
import { type PublicKeys, publicKeysShape } from '../install-keys.js';
import { shapes } from '../share-shapes.js';

/** What one install tells another about itself. */
export interface PairingCode extends PublicKeys {
  /** Its owner. */
  readonly personId: string;
  readonly name: string;
}

const PREFIX = 'linewright-1.';
/** Characters; a name of the greatest length in the widest letters is shorter. */
const LONGEST = 2_000;

const shape = z
  .tuple([
    publicKeysShape.shape.signingKey,
    publicKeysShape.shape.readingKey,
    shapes.id,
    shapes.name.refine((name) => name.trim() !== ''),
  ])
  .transform(([signingKey, readingKey, personId, name]) => ({
    ...{ signingKey, readingKey, personId, name },
  }));

/** One line of letters, to be copied or photographed. There is no secret in it. */
export const writePairingCode = ({ signingKey, readingKey, personId, name }: PairingCode): string =>
  `${PREFIX}${Buffer.from(JSON.stringify([signingKey, readingKey, personId, name])).toString('base64url')}`;

/** @throws RequestError `VALIDATION` for what is no code, or a part of one */
export const readPairingCode = (given: string): PairingCode => {
  const text = given.replace(/\s/g, '');
  const refused = (): RequestError =>
    new RequestError(
      'VALIDATION',
      `This is not a whole code of an install: it begins with "${PREFIX}". Copy all of it, from "Partners" on the partner’s screen.`,
      { fields: [] },
    );
  if (!text.startsWith(PREFIX) || text.length > LONGEST) throw refused();
  try {
    const read = shape.safeParse(
      JSON.parse(Buffer.from(text.slice(PREFIX.length), 'base64url').toString('utf8')),
    );
    if (read.success) return read.data;
  } catch {
    // Cut off in the middle.
  }
  throw refused();
};
