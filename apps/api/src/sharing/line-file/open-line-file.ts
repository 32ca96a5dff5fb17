import { createHash } from 'node:crypto';
import { stat } from 'node:fs/promises';
import { type Entry, openPromise, type ZipFile } from 'yauzl';
import { RequestError } from '../../errors/request-error.js';
import { isWithin, type JsonBounds } from '../../limits/json-shape.js';
import { entriesOf, wholeEntry } from '../../zip-files/zip-entries.js';
import { installIdOf, isSignedBy } from '../install-keys.js';
import {
  LINE_FILE,
  LINE_FILE_VERSION,
  MANIFEST,
  type Manifest,
  type ManifestPart,
  manifestShape,
  MOST_PARTS,
  photoNamed,
  RECORDS,
  SIGNATURE,
} from './manifest.js';

/** Records shrink to a tenth or so; what shrinks far more was made to fill memory or a disk. */
const LARGEST_RATIO = 100;
const ALWAYS_ALLOWED = 32 * 1024 * 1024;
const LARGEST_MANIFEST = 4 * 1024 * 1024;
const MANIFEST_BOUNDS: JsonBounds = { depth: 4, parts: 8 * MOST_PARTS };
const LARGEST_SIGNATURE = 1_000;
/** Bytes of the records as JSON. */
export const LARGEST_RECORDS = 24 * 1024 * 1024;
/** Bytes of one picture, as kept by an install. */
const LARGEST_PICTURE = 25 * 1024 * 1024;

/** A signed line file whose manifest, signature and every part were found in order. */
export interface OpenLineFile {
  readonly manifest: Manifest;
  /** The records as JSON. */
  readonly records: string;
  /** Hashes of the pictures in it. */
  readonly photos: ReadonlySet<string>;
  /** A picture by the hash of its content. Memory: the picture. */
  photo(sha256: string): Promise<Buffer>;
  close(): void;
}

export const refusedFile = (what: string): RequestError =>
  new RequestError(
    'SHARE_INVALID',
    `This line file cannot be used: ${what}. Nothing was changed. It may have been cut off or altered on its way: ask for it again.`,
  );

const textOf = async (
  zip: ZipFile,
  entries: ReadonlyMap<string, Entry>,
  name: string,
  most: number,
): Promise<Buffer> => {
  const entry = entries.get(name);
  if (entry === undefined) throw refusedFile(`it has no ${name}`);
  if (entry.uncompressedSize > most)
    throw refusedFile(`its ${name} has more than ${most.toLocaleString('en')} bytes`);
  return wholeEntry(zip, entry);
};

/** Of a newer program, or of none: known before the rest is read. */
const expectKind = (found: unknown): void => {
  const { format, version } = (found ?? {}) as Record<string, unknown>;
  if (format !== LINE_FILE)
    throw refusedFile('it was not made with "share this line", or is of another kind');
  if (typeof version === 'number' && version > LINE_FILE_VERSION)
    throw new RequestError(
      'SHARE_INVALID',
      `This line file has version ${version}, and this program reads versions up to ${LINE_FILE_VERSION}. Nothing was changed: use the newer release on both sides.`,
    );
};

const parsedManifest = (text: Buffer): Manifest => {
  if (!isWithin(text, MANIFEST_BOUNDS)) throw refusedFile('its manifest names too many parts');
  let found: unknown;
  try {
    found = JSON.parse(text.toString('utf8'));
  } catch {
    throw refusedFile('its manifest cannot be read');
  }
  expectKind(found);
  const read = manifestShape.safeParse(found);
  if (read.success) return read.data;
  const [first] = read.error.issues;
  throw refusedFile(`its manifest is wrong at ${first?.path.join('.')}: ${first?.message}`);
};

/** The manifest, once its signature and the id of its maker hold. */
const signedManifest = async (
  zip: ZipFile,
  entries: ReadonlyMap<string, Entry>,
): Promise<Manifest> => {
  const text = await textOf(zip, entries, MANIFEST, LARGEST_MANIFEST);
  const manifest = parsedManifest(text);
  const signature = await textOf(zip, entries, SIGNATURE, LARGEST_SIGNATURE);
  if (!isSignedBy(text, signature.toString('latin1').trim(), manifest.maker))
    throw refusedFile('its signature does not fit: it was altered after it was signed');
  if (installIdOf(manifest.maker) !== manifest.maker.install)
    throw refusedFile(
      `it says that it is from another install than the one that signed it: somebody signed it in the name of "${manifest.maker.name}"`,
    );
  return manifest;
};

/** Every part that the manifest names is there, of its length, and nothing else. */
const expectParts = (
  entries: ReadonlyMap<string, Entry>,
  parts: readonly ManifestPart[],
): Map<string, ManifestPart> => {
  const named = new Map(parts.map((part) => [part.name, part]));
  if (named.size !== parts.length) throw refusedFile('its manifest names a part twice');
  for (const { name, bytes } of parts) {
    const entry = entries.get(name);
    if (entry === undefined) throw refusedFile(`its part ${name} is missing`);
    if (entry.uncompressedSize !== bytes) throw refusedFile(`its part ${name} has not its length`);
    if (photoNamed(name) !== undefined && bytes > LARGEST_PICTURE)
      throw refusedFile(`its picture ${name} has more than ${LARGEST_PICTURE / 1024 / 1024} MB`);
  }
  const more = [...entries.keys()].find(
    (name) => !named.has(name) && name !== MANIFEST && name !== SIGNATURE,
  );
  if (more !== undefined) throw refusedFile(`it holds ${more}, which its manifest does not name`);
  if (!named.has(RECORDS)) throw refusedFile(`it has no ${RECORDS}`);
  return named;
};

/** Reads a part to its end and compares it with what was signed. Memory: a piece of it. */
const expectContent = async (zip: ZipFile, entry: Entry, part: ManifestPart): Promise<void> => {
  const hash = createHash('sha256');
  for await (const piece of (await zip.openReadStreamPromise(entry)) as AsyncIterable<Buffer>)
    hash.update(piece);
  if (hash.digest('hex') !== part.sha256) throw refusedFile(`its part ${part.name} was altered`);
  const named = photoNamed(part.name);
  if (named !== undefined && named !== part.sha256)
    throw refusedFile(`its picture ${part.name} has another content than its name says`);
};

/** What the ZIP reader says of a file that is none, is cut off, or holds names that lead out of a folder. */
const told = (error: unknown): unknown => {
  if (error instanceof RequestError || !(error instanceof Error)) return error;
  const { code } = error as NodeJS.ErrnoException;
  if (code !== undefined && !code.startsWith('Z_')) return error;
  return refusedFile(`it is not a complete ZIP file (${error.message})`);
};

const read = async (zip: ZipFile, fileBytes: number): Promise<OpenLineFile> => {
  const bounds = {
    mostEntries: MOST_PARTS + 2,
    mostBytes: ALWAYS_ALLOWED + LARGEST_RATIO * fileBytes,
  };
  const entries = await entriesOf(zip, bounds, refusedFile);
  const manifest = await signedManifest(zip, entries);
  const parts = expectParts(entries, manifest.parts);
  for (const [name, part] of parts) await expectContent(zip, entries.get(name)!, part);
  const records = await textOf(zip, entries, RECORDS, LARGEST_RECORDS);
  const photos = new Map(
    [...parts.keys()].flatMap((name) => {
      const sha256 = photoNamed(name);
      return sha256 === undefined ? [] : [[sha256, name] as const];
    }),
  );
  return {
    ...{ manifest, records: records.toString('utf8'), photos: new Set(photos.keys()) },
    photo: async (sha256) => {
      const name = photos.get(sha256);
      if (name === undefined) throw refusedFile(`it has no picture ${sha256}`);
      return textOf(zip, entries, name, LARGEST_PICTURE);
    },
    close: () => zip.close(),
  };
};

/**
 * Opens a line file and reads it from its beginning to its end: the signature, the list of contents and every part by its hash. Nothing is
 * unpacked to the disk. Memory: the records and one piece of a part.
 *
 * @throws RequestError `SHARE_INVALID` with what is wrong: not whole, altered, signed by another, or larger than a line can be
 */
export const openLineFile = async (path: string): Promise<OpenLineFile> => {
  let zip: ZipFile | null = null;
  try {
    const { size } = await stat(path);
    const options = { lazyEntries: true, autoClose: false };
    zip = await openPromise(path, { ...options, strictFileNames: true, validateEntrySizes: true });
    return await read(zip, size);
  } catch (error) {
    zip?.close();
    throw told(error);
  }
};
