import { randomUUID } from 'node:crypto';
import { realpath, rm, stat, writeFile } from 'node:fs/promises';
import { isAbsolute, join, relative } from 'node:path';
import { fieldError } from '../../errors/request-error.js';

const refused = (message: string): Error => fieldError({ field: 'folder', message });

const isWithin = (path: string, folder: string): boolean => {
  const way = relative(folder, path);
  return way === '' || (!way.startsWith('..') && !isAbsolute(way));
};

/**
 * A folder of this machine that may be exchanged through: there, writable, and neither in nor around the program's own.
 *
 * @param own folders of the program
 * @returns its path without links
 * @throws RequestError `VALIDATION` of the field `folder`
 */
export const expectFolder = async (given: string, own: readonly string[]): Promise<string> => {
  if (!isAbsolute(given))
    throw refused(
      `"${given}" is not a whole path: give it from the root of the machine that Linewright runs on, as /home/me/Shared/line or D:\\Shared\\line.`,
    );
  const path = await realpath(given).catch(() => null);
  if (path === null || !(await stat(path)).isDirectory())
    throw refused(
      `There is no folder ${given} on the machine that Linewright runs on: make it there first.`,
    );
  for (const folder of own) {
    const place = await realpath(folder).catch(() => folder);
    if (isWithin(path, place) || isWithin(place, path))
      throw refused(
        `${given} holds Linewright’s own files, or stands in them: make a folder of its own for the exchange.`,
      );
  }
  const probe = join(path, `.linewright-${randomUUID()}`);
  try {
    await writeFile(probe, '');
    await rm(probe);
  } catch (error) {
    throw refused(
      `Linewright may not write into ${given} (${(error as NodeJS.ErrnoException).code ?? String(error)}): allow it to the account that Linewright runs under.`,
    );
  }
  return path;
};
