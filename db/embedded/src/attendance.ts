import { randomBytes } from 'node:crypto';
import { mkdir, readdir, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { markIsAlive, processMark } from './process-mark.js';

/** Notes that this process uses the server; returns the note's path. Call under the folder lock. */
export async function attend(folder: string): Promise<string> {
  await mkdir(folder, { recursive: true, mode: 0o700 });
  const note = join(folder, `${processMark()}-${randomBytes(6).toString('hex')}`);
  await writeFile(note, '');
  return note;
}

/** Takes one's own note away and counts who is left, passing over the notes of killed processes. */
export async function leave(folder: string, note: string): Promise<number> {
  await rm(note, { force: true });
  let left = 0;
  for (const file of await readdir(folder)) {
    if (markIsAlive(file)) left += 1;
    else await rm(join(folder, file), { force: true });
  }
  return left;
}
