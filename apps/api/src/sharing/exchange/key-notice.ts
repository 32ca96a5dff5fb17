import { z } from 'zod';
import { besideTheLoop } from '../../jobs/beside.js';
import type { InstallKeys, PublicKeys } from '../install-keys.js';
import { isSignedBy, signatureOf } from '../install-keys.js';
import { openingProgram, sealingProgram } from '../reading-program.js';
import { shapes } from '../share-shapes.js';

const FORMAT = 'linewright-key-taken-back';

const shape = z.object({
  format: z.literal(FORMAT),
  version: z.literal(1),
  /** The install that takes back, and the one whose key it was. */
  by: shapes.id,
  of: shapes.id,
  at: shapes.instant,
  reason: shapes.sentence.nullable(),
});

/** What an install tells another whose key it took back. */
export type KeyNotice = Pick<z.infer<typeof shape>, 'at' | 'reason'>;

/** A notice, signed and sealed for the install whose key was taken back. */
export const writeNotice = async (
  { at, reason }: KeyNotice,
  keys: InstallKeys,
  to: { readonly installId: string; readonly readingKey: string },
): Promise<Uint8Array> => {
  const notice = { format: FORMAT, version: 1, by: keys.install, of: to.installId, at, reason };
  const text = JSON.stringify(notice);
  const signed = JSON.stringify({ text, signature: signatureOf(Buffer.from(text), keys) });
  return besideTheLoop(sealingProgram, Buffer.from(signed), to.readingKey);
};

const signedShape = z.object({ text: z.string().max(4_000), signature: z.string().max(200) });

/** What a notice says; `null` for one that is cut off, forged, or meant for another install. */
export const readNotice = async (
  sealed: Uint8Array,
  keys: InstallKeys,
  from: PublicKeys & { readonly installId: string },
): Promise<KeyNotice | null> => {
  const opened = await besideTheLoop(openingProgram, sealed, keys.readingSecret);
  if (opened === null) return null;
  try {
    const { text, signature } = signedShape.parse(JSON.parse(Buffer.from(opened).toString('utf8')));
    const { by, of, at, reason } = shape.parse(JSON.parse(text));
    const isTheirs = isSignedBy(Buffer.from(text), signature, from);
    return isTheirs && by === from.installId && of === keys.install ? { at, reason } : null;
  } catch {
    return null;
  }
};
