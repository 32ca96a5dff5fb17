import {
  createHash,
  createPrivateKey,
  createPublicKey,
  generateKeyPairSync,
  type KeyObject,
  sign,
  verify,
} from 'node:crypto';
import { wordlist } from '@scure/bip39/wordlists/english.js';
import { generateX25519Identity, identityToRecipient } from 'age-encryption';
import { z } from 'zod';

/** What others know an install by. */
export interface PublicKeys {
  /** Ed25519 (RFC 8032), the 32 bytes in base64url: its signature says that the install made a file. */
  readonly signingKey: string;
  /** X25519, as the age format writes a recipient: whatever is sealed for it, only the install can open. */
  readonly readingKey: string;
}

/** The keys of this install. They stay where they were made: a backup does not carry them. */
export interface InstallKeys extends PublicKeys {
  readonly install: string;
  /** PKCS #8, base64. */
  readonly signingSecret: string;
  /** As the age format writes an identity. */
  readonly readingSecret: string;
}

export const publicKeysShape = z.object({
  signingKey: z.string().regex(/^[\w-]{43}$/, 'it is not a key'),
  readingKey: z.string().regex(/^age1[a-z0-9]{58}$/, 'it is not a key'),
});

const digestOf = (purpose: string, { signingKey, readingKey }: PublicKeys): Buffer =>
  createHash('sha256').update(`${purpose}\n${signingKey}\n${readingKey}`).digest();

/**
 * The id of an install, which follows from its keys: nobody else can sign for it. 122 bits of a SHA-256 as a UUID of version 8
 * (RFC 9562, section 5.8).
 */
export const installIdOf = (keys: PublicKeys): string => {
  const bytes = digestOf('install', keys).subarray(0, 16);
  bytes[6] = (bytes[6]! & 0x0f) | 0x80;
  bytes[8] = (bytes[8]! & 0x3f) | 0x80;
  return bytes.toString('hex').replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5');
};

/** Words of 11 bits each. */
const WORDS = 6;

/**
 * Keys as six words that two people read to each other: 66 bits of a SHA-256, from the English word list of BIP 39. Both keys stand in them,
 * so that neither can be another's.
 */
export const wordsOf = (keys: PublicKeys): string[] => {
  const digest = digestOf('words', keys);
  const bits = [...digest.subarray(0, 9)].map((byte) => byte.toString(2).padStart(8, '0')).join('');
  return Array.from(
    { length: WORDS },
    (_, k) => wordlist[parseInt(bits.slice(11 * k, 11 * k + 11), 2)]!,
  );
};

const rawOf = (key: KeyObject): string => key.export({ format: 'jwk' }).x ?? '';

/** A new install's. */
export const makeKeys = async (): Promise<InstallKeys> => {
  const { privateKey, publicKey } = generateKeyPairSync('ed25519');
  const readingSecret = await generateX25519Identity();
  const keys = {
    signingKey: rawOf(publicKey),
    readingKey: await identityToRecipient(readingSecret),
  };
  const signingSecret = privateKey.export({ format: 'der', type: 'pkcs8' }).toString('base64');
  return { ...keys, install: installIdOf(keys), signingSecret, readingSecret };
};

/** Keys again, from the two secrets that are kept. */
export const keysFrom = async (
  signingSecret: string,
  readingSecret: string,
): Promise<InstallKeys> => {
  const keys = {
    signingKey: rawOf(createPublicKey(privateKeyOf(signingSecret))),
    readingKey: await identityToRecipient(readingSecret),
  };
  return { ...keys, install: installIdOf(keys), signingSecret, readingSecret };
};

const privateKeyOf = (secret: string): KeyObject =>
  createPrivateKey({ key: Buffer.from(secret, 'base64'), format: 'der', type: 'pkcs8' });

/** Says what is signed, so that a signature of one thing is none of another. */
const DOMAIN = 'linewright line file\n';

export const signatureOf = (text: Buffer, { signingSecret }: InstallKeys): string =>
  sign(null, Buffer.concat([Buffer.from(DOMAIN), text]), privateKeyOf(signingSecret)).toString(
    'base64',
  );

export const isSignedBy = (
  text: Buffer,
  signature: string,
  { signingKey }: PublicKeys,
): boolean => {
  try {
    const key = createPublicKey({
      key: { kty: 'OKP', crv: 'Ed25519', x: signingKey },
      format: 'jwk',
    });
    const signed = Buffer.concat([Buffer.from(DOMAIN), text]);
    return verify(null, signed, key, Buffer.from(signature, 'base64'));
  } catch {
    // No point of the curve, or no signature at all.
    return false;
  }
};
