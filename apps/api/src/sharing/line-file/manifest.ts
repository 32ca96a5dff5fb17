import { z } from 'zod';
import { LENGTHS } from '../../limits/lengths.js';
import { publicKeysShape } from '../install-keys.js';
import { shapes } from '../share-shapes.js';

export const LINE_FILE = 'linewright-line';
/** Of the ZIP file; versions 1 to 4 were plain JSON. */
export const LINE_FILE_VERSION = 5;

/** Names of its parts. */
export const MANIFEST = 'manifest.json';
export const SIGNATURE = 'signature.txt';
export const RECORDS = 'line.json';
export const PAGE = 'read-me.html';
const PHOTOS = 'photos/';

const suffixes: Readonly<Record<string, string>> = {
  'image/jpeg': '.jpg',
  'image/png': '.png',
  'image/webp': '.webp',
};

/** A picture's name in the file, by the hash of its content. */
export const photoName = (sha256: string, mediaType: string): string =>
  `${PHOTOS}${sha256}${suffixes[mediaType] ?? ''}`;

/** The hash in a picture's name; none of another part's. */
export const photoNamed = (name: string): string | undefined =>
  /^photos\/([\da-f]{64})\.(jpg|png|webp)$/.exec(name)?.[1];

/** Parts of one file: a picture is one. */
export const MOST_PARTS = 20_000;

const partShape = z.object({
  name: z.string().max(LENGTHS.word),
  bytes: z.int().min(0),
  sha256: z.string().regex(/^[\da-f]{64}$/),
});

/** What is signed: who made the file, for whom, and each of its parts by the hash of its content. */
export const manifestShape = z.object({
  format: z.literal(LINE_FILE),
  version: z.literal(LINE_FILE_VERSION),
  madeAt: shapes.instant,
  maker: z.object({ install: shapes.id, name: shapes.name, ...publicKeysShape.shape }),
  /** The install that it was sealed for; none of a file for whoever has it. */
  madeFor: shapes.id.nullable(),
  parts: z.array(partShape).max(MOST_PARTS),
});

export type Manifest = z.infer<typeof manifestShape>;
export type ManifestPart = Manifest['parts'][number];
