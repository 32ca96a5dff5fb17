import { createHash } from 'node:crypto';
import { createReadStream, createWriteStream } from 'node:fs';
import { mkdir, open, rename, rm, stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import type { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import pg from 'pg';
import { to as copyTo } from 'pg-copy-streams';
import type { DataSource } from 'typeorm';
import { ZipFile } from 'yazl';
import { actorSetting } from '../access/actor.js';
import { changesMade } from '../database/schema-version.js';
import { flushFolder } from '../photo-files/flush-folder.js';
import type { PhotoFiles } from '../photo-files/photo-files.js';
import { PROGRAM_VERSION } from '../config/program-version.js';
import { carriedTables, columnsOf, quoted } from './carried-tables.js';
import {
  FORMAT,
  FORMAT_VERSION,
  MANIFEST,
  MANIFEST_SUM,
  type Manifest,
  type PhotoPart,
  type TablePart,
  photoFile,
  tableFile,
} from './manifest.js';
import { type Measured, Meter } from './meter.js';
import { verifyBackup } from './read-backup.js';

export interface BackupSource {
  readonly dataSource: DataSource;
  readonly photos: PhotoFiles;
}

export interface WrittenBackup {
  readonly path: string;
  readonly bytes: number;
  readonly manifest: Manifest;
}

/** A ZIP file that is written while its parts come in; nothing of them is held. */
class Archive {
  private readonly zip = new ZipFile();
  private readonly written: Promise<void>;

  constructor(
    path: string,
    private readonly madeAt: Date,
    private readonly signal: AbortSignal,
  ) {
    const sink = createWriteStream(path, { flags: 'wx', mode: 0o600 });
    this.written = pipeline(this.zip.outputStream, sink, { signal });
    this.written.catch(() => undefined);
  }

  async add(name: string, source: Readable, compress: boolean): Promise<Measured> {
    const meter = new Meter();
    this.zip.addReadStream(meter, name, { compress, mtime: this.madeAt });
    // A full disk is told by the file, not by the part that waits for it.
    await Promise.race([
      pipeline(source, meter, { signal: this.signal }),
      this.written.then(() => Promise.reject(new Error('The file ended before its parts.'))),
    ]);
    return meter.measured;
  }

  async end(manifest: Manifest): Promise<void> {
    const text = Buffer.from(`${JSON.stringify(manifest, null, 1)}\n`);
    const sum = createHash('sha256').update(text).digest('hex');
    this.zip.addBuffer(text, MANIFEST, { mtime: this.madeAt });
    this.zip.addBuffer(Buffer.from(`${sum}\n`), MANIFEST_SUM, { mtime: this.madeAt });
    this.zip.end();
    await this.written;
  }
}

interface Snapshot {
  readonly changes: readonly string[];
  readonly tables: TablePart[];
  readonly pictures: readonly string[];
}

/** Rather an error than rows left out because a policy hides them from whoever reads. Those that take rows out begin with whom they leave alone. */
const expectWhole = async (
  query: (sql: string, parameters: unknown[]) => Promise<unknown>,
  names: readonly string[],
): Promise<void> => {
  const hiding = (await query(
    `SELECT relname AS name FROM pg_class c
     WHERE relnamespace = current_schema()::regnamespace AND relname = ANY($1::text[]) AND relrowsecurity
       AND NOT (door_open() AND door_alone() AND door_program()
         AND EXISTS (SELECT 1 FROM pg_policy p WHERE p.polrelid = c.oid AND p.polname = 'door_whole')
         AND NOT EXISTS (SELECT 1 FROM pg_policy p WHERE p.polrelid = c.oid AND NOT p.polpermissive
           AND pg_get_expr(coalesce(p.polqual, p.polwithcheck), p.polrelid) !~ '^\\(*\\s*SELECT door_(alone|program)\\(\\)'))`,
    [names],
  )) as { name: string }[];
  if (hiding.length === 0) return;
  throw new Error(
    `Rows of ${hiding.map(({ name }) => name).join(', ')} could be hidden from the backup by a policy of the table.`,
  );
};

/** All tables as they stand at one moment, while others go on writing. */
const addTables = async (dataSource: DataSource, archive: Archive): Promise<Snapshot> => {
  // A connection of its own: one that is given up in the middle of a COPY is of no more use to a pool.
  const { url } = dataSource.options as { url?: string };
  const client = new pg.Client({
    connectionString: url ?? '',
    application_name: 'linewright backup',
  });
  await client.connect();
  // Its loss is told by the statement that waits for it.
  client.on('error', () => undefined);
  const query = async (sql: string, parameters: unknown[] = []): Promise<unknown> =>
    (await client.query(sql, parameters)).rows;
  try {
    await client.query('BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY');
    await client.query(`SELECT set_config('linewright.actor', $1, true)`, [
      actorSetting({ kind: 'system', purpose: 'backup' }),
    ]);
    const names = carriedTables(dataSource);
    await expectWhole(query, names);
    // Nobody may empty a table under the snapshot.
    await client.query(`LOCK TABLE ${names.map(quoted).join(', ')} IN ACCESS SHARE MODE`);
    const changes = await changesMade({ query });
    const tables: TablePart[] = [];
    for (const table of names) {
      const columns = await columnsOf({ query }, table);
      const list = columns.map(quoted).join(', ');
      const rows = client.query(copyTo(`COPY (SELECT ${list} FROM ${quoted(table)}) TO STDOUT`));
      const measured = await archive.add(tableFile(table), rows, true);
      tables.push({ table, columns: [...columns], ...measured });
    }
    const pictures = (await query('SELECT DISTINCT sha256 FROM photo ORDER BY sha256')) as {
      sha256: string;
    }[];
    await client.query('COMMIT');
    return { changes, tables, pictures: pictures.map((row) => row.sha256) };
  } finally {
    await client.end();
  }
};

const addPhotos = async (
  photos: PhotoFiles,
  pictures: readonly string[],
  archive: Archive,
): Promise<{ parts: PhotoPart[]; amiss: string[] }> => {
  const parts: PhotoPart[] = [];
  const amiss: string[] = [];
  for (const photo of pictures) {
    for (const small of [false, true]) {
      const path = photos.pathOf(photo, small ? 'small' : 'full');
      const found = await stat(path).catch((error: NodeJS.ErrnoException) => {
        if (error.code === 'ENOENT') return null;
        throw error;
      });
      if (found === null) {
        if (!small) amiss.push(photo);
        continue;
      }
      const { bytes, sha256 } = await archive.add(
        photoFile(photo, small),
        createReadStream(path),
        false,
      );
      if (!small && sha256 !== photo) amiss.push(photo);
      parts.push({ photo, small, bytes, sha256 });
    }
  }
  return { parts, amiss };
};

const flushFile = async (path: string): Promise<number> => {
  const file = await open(path, 'r+');
  try {
    await file.sync();
    return (await file.stat()).size;
  } finally {
    await file.close();
  }
};

/**
 * Writes everything that the install holds into one file: under another name first, flushed, read again from its beginning to
 * its end and compared, and only then put in its place. Memory stays the same however much there is.
 */
export const writeBackup = async (
  { dataSource, photos }: BackupSource,
  path: string,
  madeAt: Date,
  signal: AbortSignal,
): Promise<WrittenBackup> => {
  const folder = dirname(path);
  await mkdir(folder, { recursive: true, mode: 0o700 });
  const draft = join(folder, `.unfinished-${process.pid}-${madeAt.getTime()}`);
  try {
    const archive = new Archive(draft, madeAt, signal);
    const { changes, tables, pictures } = await addTables(dataSource, archive);
    const { parts, amiss } = await addPhotos(photos, pictures, archive);
    const manifest: Manifest = {
      format: FORMAT,
      formatVersion: FORMAT_VERSION,
      program: PROGRAM_VERSION,
      madeAt: madeAt.toISOString(),
      changes: [...changes],
      tables,
      photos: parts,
      photosAmiss: amiss,
    };
    await archive.end(manifest);
    const bytes = await flushFile(draft);
    await verifyBackup(draft, signal);
    await rename(draft, path);
    await flushFolder(folder);
    return { path, bytes, manifest };
  } catch (error) {
    await rm(draft, { force: true });
    throw error;
  }
};
