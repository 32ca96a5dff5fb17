import { createHash, randomUUID } from 'node:crypto';
import { mkdir, open, readdir, readFile, rename, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { flushFolder } from '../../photo-files/flush-folder.js';

/** Bytes of one file that is read: a line without its pictures, or one picture. */
const LARGEST = 64 * 1024 * 1024;
const DRAFT = '.unfinished-';

/** What two installs write for each other stands in a folder of each direction. */
const nameOf = (from: string, to: string): string => `linewright-from-${from}-for-${to}`;
const directions = /^linewright-from-([\da-f-]{36})-for-([\da-f-]{36})$/;

export const lineName = (lineId: string): string => `line-${lineId}.age`;
/** Says to the other install that its key was taken back. */
export const NOTICE = 'key-taken-back.age';
/** The line of a file's name; none of another file's. */
export const lineNamed = (name: string): string | undefined =>
  /^line-([\da-f-]{36})\.age$/.exec(name)?.[1];
/** A picture's name tells nobody else which picture it is, unless they have it. */
export const pictureName = (sha256: string, to: string): string =>
  `picture-${createHash('sha256').update(`${to}\n${sha256}`).digest('hex')}.age`;

/** The folder is not there or cannot be read: it may be on a disk that is not connected, or not yet in step. */
export class FolderAway extends Error {}

const away = (folder: string, error: unknown): FolderAway =>
  new FolderAway(
    `The folder ${folder} is not there or cannot be used (${(error as NodeJS.ErrnoException).code ?? String(error)}). Nothing is lost: what waits goes through when it is back.`,
  );

/** One direction of an exchange folder. */
export class FolderFiles {
  private readonly path: string;

  constructor(
    private readonly folder: string,
    from: string,
    to: string,
  ) {
    this.path = join(folder, nameOf(from, to));
  }

  /** Names of the files in it, those that are still being written apart. None where nobody wrote yet. */
  async names(): Promise<string[]> {
    try {
      await stat(this.folder);
      return (await readdir(this.path)).filter((name) => !name.startsWith('.')).sort();
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === 'ENOENT' && (await this.isThere())) return [];
      throw away(this.folder, error);
    }
  }

  /** How many bytes a file has; `null` for one that is not there. */
  async size(name: string): Promise<number | null> {
    return stat(join(this.path, name)).then(
      (found) => found.size,
      () => null,
    );
  }

  /** A file, whole as it is now; `null` for one that vanished, or is longer than any that was written for this. */
  async read(name: string): Promise<Buffer | null> {
    try {
      if ((await stat(join(this.path, name))).size > LARGEST) return null;
      return await readFile(join(this.path, name));
    } catch (error) {
      if (await this.isThere()) return null;
      throw away(this.folder, error);
    }
  }

  /** Written under another name, flushed, and only then put in its place: whoever reads it meanwhile finds the one before, whole. */
  async write(name: string, bytes: Uint8Array): Promise<void> {
    const draft = join(this.path, `${DRAFT}${randomUUID()}`);
    try {
      // The folder itself is never made here: where it is not, a disk is not connected.
      await stat(this.folder);
      await mkdir(this.path, { recursive: false }).catch((error: NodeJS.ErrnoException) => {
        if (error.code !== 'EEXIST') throw error;
      });
      // On a disk that both reach, the partner's program may run as another user; what it holds is sealed for them.
      const file = await open(draft, 'wx', 0o644);
      try {
        await file.writeFile(bytes);
        await file.sync();
      } finally {
        await file.close();
      }
      await rename(draft, join(this.path, name));
      await flushFolder(this.path);
    } catch (error) {
      await rm(draft, { force: true }).catch(() => undefined);
      throw away(this.folder, error);
    }
  }

  /** Takes away what is no longer given, and drafts of a process that was killed. */
  async keepOnly(names: ReadonlySet<string>): Promise<void> {
    const found = await readdir(this.path).catch(() => [] as string[]);
    for (const name of found)
      if (!names.has(name)) await rm(join(this.path, name), { force: true }).catch(() => undefined);
  }

  private async isThere(): Promise<boolean> {
    return stat(this.folder).then(
      (found) => found.isDirectory(),
      () => false,
    );
  }
}

/** Ids of installs other than these two that write into a folder, or that somebody writes for there. */
export const othersIn = async (folder: string, a: string, b: string): Promise<string[]> => {
  const names = await readdir(folder).catch(() => [] as string[]);
  const ids = names.flatMap((name) => {
    const [, from, to] = directions.exec(name) ?? [];
    return from === undefined || to === undefined ? [] : [from, to];
  });
  return [...new Set(ids)].filter((id) => id !== a && id !== b).sort();
};
