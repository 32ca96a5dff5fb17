import { randomUUID } from 'node:crypto';
import { createWriteStream, existsSync } from 'node:fs';
import { mkdir, open, rename, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { flushFolder } from '../photo-files/flush-folder.js';
import type { PhotoFiles } from '../photo-files/photo-files.js';
import { photoFile } from './manifest.js';
import type { OpenBackup } from './read-backup.js';

/** Pictures laid ready beside their places, and put into them only when the records are as good as saved. */
export class RestoredPhotos {
  private readonly staged: string;
  private readonly placed: string[] = [];

  constructor(private readonly files: PhotoFiles) {
    this.staged = join(files.incoming, `restore-${randomUUID()}`);
  }

  async stage(backup: OpenBackup, signal: AbortSignal): Promise<void> {
    if (backup.manifest.photos.length === 0) return;
    await mkdir(this.staged, { recursive: true, mode: 0o700 });
    for (const { photo, small } of backup.manifest.photos) {
      const file = await open(this.draftOf(photo, small), 'wx', 0o600);
      await pipeline(
        await backup.part(photoFile(photo, small)),
        createWriteStream('', { fd: file, flush: true }),
        { signal },
      );
    }
  }

  /** A picture that is there already is the same one: its name is its content. */
  async place(backup: OpenBackup): Promise<void> {
    const shelves = new Set<string>();
    for (const { photo, small } of backup.manifest.photos) {
      const path = this.files.pathOf(photo, small ? 'small' : 'full');
      if (existsSync(path)) continue;
      await mkdir(dirname(path), { recursive: true });
      this.placed.push(path);
      await rename(this.draftOf(photo, small), path);
      shelves.add(dirname(path));
    }
    for (const shelf of shelves) await flushFolder(shelf);
    if (shelves.size > 0) await flushFolder(this.files.folder);
    await this.tidy();
  }

  async takeBack(): Promise<void> {
    for (const path of this.placed) await rm(path, { force: true });
    await this.tidy();
  }

  private tidy(): Promise<void> {
    return rm(this.staged, { recursive: true, force: true });
  }

  private draftOf(photo: string, small: boolean): string {
    return join(this.staged, `${photo}${small ? '.small' : ''}`);
  }
}
