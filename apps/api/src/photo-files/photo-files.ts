import { DAY } from '@linewright/care';
import { randomUUID } from 'node:crypto';
import { mkdir, open, readdir, rename, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { Inject, Injectable, type OnApplicationBootstrap } from '@nestjs/common';
import { Clock } from '../clock/clock.js';
import { type Config, ConfigError } from '../config/config.js';
import { CONFIG } from '../config/config.token.js';
import { flushFolder } from './flush-folder.js';

/** As it is kept, as it stands in a gallery, and as it stands in a row of a list. */
export type PhotoSize = 'full' | 'small' | 'tiny';
const SIZES: readonly PhotoSize[] = ['full', 'small', 'tiny'];

/** A picture ready to be kept: upright, without metadata, with its thumbnail (WebP). */
export interface PreparedPhoto {
  readonly file: Buffer;
  readonly small: Buffer;
  readonly sha256: string;
  readonly mediaType: string;
  readonly width: number;
  readonly height: number;
}

/**
 * Pictures as files named by the SHA-256 of their content, in `PHOTOS_DIR`. A file is written under a name of its own, flushed and then
 * renamed, so that a name is only ever seen with its whole content; the same picture twice is one file.
 */
@Injectable()
export class PhotoFiles implements OnApplicationBootstrap {
  readonly folder: string;
  /** For files that are not whole yet. */
  readonly incoming: string;

  constructor(
    @Inject(CONFIG) config: Config,
    private readonly clock: Clock,
  ) {
    this.folder = config.photosDir;
    this.incoming = join(config.photosDir, 'incoming');
  }

  async onApplicationBootstrap(): Promise<void> {
    await this.removeUnfinished();
  }

  pathOf(sha256: string, size: PhotoSize): string {
    return join(this.folder, sha256.slice(0, 2), size === 'full' ? sha256 : `${sha256}.${size}`);
  }

  /** Keeps a smaller copy of a picture that is kept already. */
  async keepTiny(sha256: string, tiny: Buffer): Promise<void> {
    await mkdir(this.incoming, { recursive: true });
    await this.put(tiny, this.pathOf(sha256, 'tiny'));
  }

  /** On the disk when it answers; the record of it comes afterwards. */
  async keep({ sha256, file, small }: PreparedPhoto): Promise<void> {
    await mkdir(this.incoming, { recursive: true });
    const shelf = join(this.folder, sha256.slice(0, 2));
    await mkdir(shelf, { recursive: true });
    await this.put(small, this.pathOf(sha256, 'small'));
    await this.put(file, this.pathOf(sha256, 'full'));
    await flushFolder(shelf);
    await flushFolder(this.folder);
  }

  /** Takes pictures away that no record names any more. */
  async remove(sha256s: readonly string[]): Promise<void> {
    for (const sha256 of sha256s)
      for (const size of SIZES) await rm(this.pathOf(sha256, size), { force: true });
  }

  /** Takes every picture away, and what was sent and not taken in. */
  async removeAll(): Promise<void> {
    const shelves = (await readdir(this.folder).catch(() => [])).filter(
      (name) => /^[\da-f]{2}$/.test(name) || name === 'incoming',
    );
    for (const shelf of shelves)
      await rm(join(this.folder, shelf), { recursive: true, force: true });
  }

  private async put(content: Buffer, path: string): Promise<void> {
    const written = join(this.incoming, randomUUID());
    try {
      const file = await open(written, 'wx', 0o600);
      try {
        await file.writeFile(content);
        await file.sync();
      } finally {
        await file.close();
      }
      await rename(written, path);
    } catch (error) {
      await rm(written, { force: true });
      throw error;
    }
  }

  /** Leftovers of processes that were killed while writing; a day is longer than any upload. */
  private async removeUnfinished(): Promise<void> {
    let names: string[];
    try {
      names = await readdir(this.incoming);
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException;
      if (code === 'ENOENT') return;
      throw new ConfigError(
        'PHOTOS_DIR',
        `The folder for photos, ${this.folder}, cannot be read (${code ?? String(error)}): give PHOTOS_DIR a folder that this account may read and write.`,
      );
    }
    for (const name of names) {
      const path = join(this.incoming, name);
      const found = await stat(path).catch(() => null);
      const age = this.clock.now().getTime() - (found?.mtimeMs ?? Infinity);
      if (age > DAY) await rm(path, { force: true });
    }
  }
}
