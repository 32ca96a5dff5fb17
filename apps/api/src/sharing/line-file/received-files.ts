import { randomUUID } from 'node:crypto';
import { createWriteStream } from 'node:fs';
import { mkdir, readdir, rm, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { Transform } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { DAY } from '@linewright/care';
import { Injectable } from '@nestjs/common';
import type { Request } from 'express';
import { Clock } from '../../clock/clock.js';
import { notFound, RequestError } from '../../errors/request-error.js';
import { PhotoFiles } from '../../photo-files/photo-files.js';

/** Bytes: the records of a line and some hundred pictures. */
export const LARGEST_LINE_FILE = 512 * 1024 * 1024;
const SUFFIX = '.line';

/** A stream that ends in an error as soon as more has come than is taken. */
const upTo = (most: number): Transform => {
  let bytes = 0;
  return new Transform({
    transform(piece: Buffer, _, done) {
      bytes += piece.length;
      if (bytes <= most) return done(null, piece);
      done(
        new RequestError(
          'SHARE_INVALID',
          `This file is larger than ${most / 1024 / 1024} MB: give the line without its pictures.`,
        ),
      );
    },
  });
};

/** Line files that a browser sent, until they are taken in or a day has gone; beside the pictures, where every process of this install finds them. */
@Injectable()
export class ReceivedFiles {
  constructor(
    private readonly photos: PhotoFiles,
    private readonly clock: Clock,
  ) {}

  /** Memory: a piece of it. */
  async keep(id: string, body: Request): Promise<void> {
    const folder = this.photos.incoming;
    await mkdir(folder, { recursive: true });
    await this.removeOld();
    const path = this.pathOf(id);
    try {
      await pipeline(
        body,
        upTo(LARGEST_LINE_FILE),
        createWriteStream(path, { flags: 'w', mode: 0o600 }),
      );
    } catch (error) {
      await rm(path, { force: true });
      throw error;
    }
  }

  /** The same for a file that is in memory already; whoever keeps it removes it. */
  async keepBytes(bytes: Uint8Array): Promise<string> {
    const id = randomUUID();
    await mkdir(this.photos.incoming, { recursive: true });
    await writeFile(this.pathOf(id), bytes, { mode: 0o600 });
    return id;
  }

  async path(id: string): Promise<string> {
    const path = this.pathOf(id);
    if ((await stat(path).catch(() => null)) === null) throw notFound('file that was sent', id);
    return path;
  }

  async remove(id: string): Promise<void> {
    await rm(this.pathOf(id), { force: true });
  }

  private pathOf(id: string): string {
    return join(this.photos.incoming, `${id}${SUFFIX}`);
  }

  private async removeOld(): Promise<void> {
    for (const name of await readdir(this.photos.incoming)) {
      if (!name.endsWith(SUFFIX)) continue;
      const path = join(this.photos.incoming, name);
      const found = await stat(path).catch(() => null);
      const age = this.clock.now().getTime() - (found?.mtimeMs ?? Infinity);
      if (age > DAY) await rm(path, { force: true });
    }
  }
}
