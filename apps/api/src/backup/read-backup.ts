import { createHash } from 'node:crypto';
import { stat } from 'node:fs/promises';
import { type Readable, Writable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { type Entry, type ZipFile, openPromise } from 'yauzl';
import { knownChanges, unknownChanges } from '../database/schema-version.js';
import { RequestError } from '../errors/request-error.js';
import { PROGRAM_VERSION } from '../config/program-version.js';
import { entriesOf, wholeEntry } from '../zip-files/zip-entries.js';
import {
  FORMAT,
  FORMAT_VERSION,
  MANIFEST,
  MANIFEST_SUM,
  type Manifest,
  manifestShape,
  photoFile,
  tableFile,
} from './manifest.js';
import { type Measured, Meter } from './meter.js';

/** Rows of records shrink to a tenth or so; what shrinks to a three-hundredth was made to fill a disk. */
const LARGEST_RATIO = 300;
const ALWAYS_ALLOWED = 64 * 1024 * 1024;
/** Two files a photo, and a table each. */
const MOST_PARTS = 2_000_000;
const LARGEST_MANIFEST = 64 * 1024 * 1024;

interface Part {
  readonly name: string;
  readonly bytes: number;
  readonly sha256: string;
  /** Where the part is a table. */
  readonly rows?: number;
}

/** A backup file whose list of contents was read and found in order. */
export interface OpenBackup {
  readonly manifest: Manifest;
  /** One part, checked while it is read: the stream fails when it is not what the manifest says. */
  part(name: string): Promise<Readable>;
  close(): void;
}

const damaged = (file: string, what: string): RequestError =>
  new RequestError(
    'BACKUP_DAMAGED',
    `${file} cannot be used: ${what}. Nothing was changed. It may have been cut off or altered on its way: copy it again, or take another backup.`,
  );

const partsOf = ({ tables, photos }: Manifest): Part[] => [
  ...tables.map((part) => ({ ...part, name: tableFile(part.table) })),
  ...photos.map((part) => ({ ...part, name: photoFile(part.photo, part.small) })),
];

const readEntries = (zip: ZipFile, file: string, fileBytes: number): Promise<Map<string, Entry>> =>
  entriesOf(
    zip,
    { mostEntries: MOST_PARTS, mostBytes: ALWAYS_ALLOWED + LARGEST_RATIO * fileBytes },
    (what) => damaged(file, what),
  );

const textOf = async (zip: ZipFile, file: string, entry: Entry | undefined): Promise<Buffer> => {
  if (entry === undefined)
    throw damaged(file, 'it is not a backup of Linewright, it has no manifest');
  if (entry.uncompressedSize > LARGEST_MANIFEST) throw damaged(file, 'its manifest is too long');
  return wholeEntry(zip, entry);
};

const expectReadable = (file: string, found: unknown): void => {
  const { format, formatVersion, program, changes } = (found ?? {}) as Record<string, unknown>;
  if (format !== FORMAT) throw damaged(file, 'it is not a backup of Linewright');
  const names = Array.isArray(changes) ? changes.filter((c) => typeof c === 'string') : [];
  const unknown = unknownChanges(names);
  const newer = typeof formatVersion === 'number' && formatVersion > FORMAT_VERSION;
  if (!newer && unknown.length === 0) return;
  const what = newer ? `format ${formatVersion}` : `schema ${unknown.join(', ')}`;
  throw new RequestError(
    'BACKUP_NEWER',
    `${file} was made by a newer Linewright (${String(program).slice(0, 100)}, ${what}). This one is ${PROGRAM_VERSION} ` +
      `(schema ${knownChanges.at(-1)}) and would lose what it does not know. Nothing was changed: restore it with the newer version.`,
  );
};

const readManifest = async (
  zip: ZipFile,
  file: string,
  entries: ReadonlyMap<string, Entry>,
): Promise<Manifest> => {
  const text = await textOf(zip, file, entries.get(MANIFEST));
  const sum = (await textOf(zip, file, entries.get(MANIFEST_SUM))).toString('utf8').trim();
  if (createHash('sha256').update(text).digest('hex') !== sum)
    throw damaged(file, 'its manifest was altered');
  let found: unknown;
  try {
    found = JSON.parse(text.toString('utf8'));
  } catch {
    throw damaged(file, 'its manifest cannot be read');
  }
  expectReadable(file, found);
  const read = manifestShape.safeParse(found);
  if (!read.success) {
    const [first] = read.error.issues;
    throw damaged(
      file,
      `its manifest is wrong at ${first?.path.join('.') ?? ''}: ${first?.message}`,
    );
  }
  return read.data;
};

/** Every part of the manifest is there, of its size, and nothing else. */
const expectSame = (
  file: string,
  entries: ReadonlyMap<string, Entry>,
  parts: readonly Part[],
): void => {
  const names = new Set([MANIFEST, MANIFEST_SUM]);
  for (const { name, bytes } of parts) {
    if (names.has(name)) throw damaged(file, `its manifest names ${name} twice`);
    names.add(name);
    const entry = entries.get(name);
    if (entry === undefined) throw damaged(file, `${name} is missing`);
    if (entry.uncompressedSize !== bytes) throw damaged(file, `${name} has not its length`);
  }
  const more = [...entries.keys()].find((name) => !names.has(name));
  if (more !== undefined) throw damaged(file, `it holds ${more}, which its manifest does not name`);
};

const expectMeasured = (file: string, part: Part, found: Measured): void => {
  const same =
    found.bytes === part.bytes &&
    found.sha256 === part.sha256 &&
    (part.rows === undefined || part.rows === found.rows);
  if (!same) throw damaged(file, `${part.name} was altered`);
};

/** A meter that fails at the end when what went through is not the part. */
class CheckedMeter extends Meter {
  constructor(
    private readonly file: string,
    private readonly part: Part,
  ) {
    super();
  }

  override _flush(done: (error?: Error | null) => void): void {
    super._flush(() => {
      try {
        expectMeasured(this.file, this.part, this.measured);
        done();
      } catch (error) {
        done(error as Error);
      }
    });
  }
}

/** What the ZIP reader says of a file that is none, is cut off, or holds names that lead out of a folder. */
const told = (file: string, error: unknown): unknown => {
  if (error instanceof RequestError || !(error instanceof Error)) return error;
  const { code } = error as NodeJS.ErrnoException;
  if (code === 'ENOENT')
    return new RequestError(
      'NOT_FOUND',
      `There is no file ${file}: give its path from where you stand.`,
    );
  if (code === 'EISDIR')
    return new RequestError('NOT_FOUND', `${file} is a folder: give a backup file.`);
  if (code !== undefined && !code.startsWith('Z_')) return error;
  return damaged(file, `it is not a complete ZIP file (${error.message})`);
};

/** Opens a backup and looks at its list of contents. Reads no part yet. */
export const openBackup = async (file: string): Promise<OpenBackup> => {
  let zip: ZipFile | null = null;
  try {
    const { size } = await stat(file);
    zip = await openPromise(file, {
      lazyEntries: true,
      autoClose: false,
      strictFileNames: true,
      validateEntrySizes: true,
    });
    const opened = zip;
    const entries = await readEntries(opened, file, size);
    const manifest = await readManifest(opened, file, entries);
    const parts = new Map(partsOf(manifest).map((part) => [part.name, part]));
    expectSame(file, entries, partsOf(manifest));
    return {
      manifest,
      part: async (name) => {
        const [entry, part] = [entries.get(name), parts.get(name)];
        if (entry === undefined || part === undefined) throw damaged(file, `${name} is missing`);
        const meter = new CheckedMeter(file, part);
        const source = await opened.openReadStreamPromise(entry);
        pipeline(source, meter).catch((error: unknown) => {
          meter.destroy(told(file, error) as Error);
        });
        return meter;
      },
      close: () => opened.close(),
    };
  } catch (error) {
    zip?.close();
    throw told(file, error);
  }
};

/**
 * Reads a backup from its beginning to its end and compares every part with the manifest.
 *
 * @throws RequestError `BACKUP_DAMAGED`, `BACKUP_NEWER`
 */
export const verifyBackup = async (file: string, signal?: AbortSignal): Promise<Manifest> => {
  const backup = await openBackup(file);
  try {
    for (const { name } of partsOf(backup.manifest)) {
      signal?.throwIfAborted();
      try {
        await pipeline(
          await backup.part(name),
          new Writable({ write: (_piece, _encoding, done) => done() }),
          signal === undefined ? {} : { signal },
        );
      } catch (error) {
        throw told(file, error);
      }
    }
    return backup.manifest;
  } finally {
    backup.close();
  }
};
