import { besideTheLoop } from '../../jobs/beside.js';
import { RequestError } from '../../errors/request-error.js';
import type { InstallKeys } from '../install-keys.js';
import { type LineFileRead, readLineFile } from '../line-file/read-line-file.js';
import type { ReceivedFiles } from '../line-file/received-files.js';
import { openingProgram } from '../reading-program.js';
import { type FolderFiles, lineName, pictureName } from './folder-files.js';

/** A picture that is still on its way: what is there of it is not whole. */
export class PictureNotWhole extends Error {
  constructor(readonly sha256: string) {
    super('A picture in the folder is not whole yet.');
  }
}

const notWhole = (): RequestError =>
  new RequestError(
    'SHARE_INVALID',
    'Their file in the folder cannot be opened: it may still be on its way, or is not meant for this install. It is tried again.',
  );

const opened = async (bytes: Uint8Array, { readingSecret }: InstallKeys): Promise<Uint8Array> => {
  const found = await besideTheLoop(openingProgram, bytes, readingSecret);
  if (found === null) throw notWhole();
  return found;
};

/** Where a partner's files for this install are read from. */
export interface ReadFrom {
  readonly theirs: FolderFiles;
  readonly installId: string;
  readonly keys: InstallKeys;
  readonly received: ReceivedFiles;
  /** Pictures that were found not to be whole. */
  readonly notWhole: ReadonlySet<string>;
}

/**
 * A partner's file of one line, opened and held against its signature; pictures are those beside it that have come.
 *
 * @param sealed the file's bytes as they stand in the folder
 * @throws RequestError `SHARE_INVALID`; PictureNotWhole from its `photo`
 */
export const readFromFolder = async (
  lineId: string,
  sealed: Uint8Array,
  { theirs, installId, keys, received, notWhole: away }: ReadFrom,
): Promise<LineFileRead> => {
  const id = await received.keepBytes(await opened(sealed, keys));
  try {
    const read = await readLineFile(await received.path(id));
    read.close();
    if (read.maker?.install !== installId || read.madeFor !== keys.install)
      throw new RequestError(
        'SHARE_INVALID',
        `Their file ${lineName(lineId)} was signed by another install, or made for another one: it is not read.`,
      );
    if (read.file.lineId !== lineId)
      throw new RequestError(
        'SHARE_INVALID',
        `${lineName(lineId)} holds another line: it is not read.`,
      );
    const names = new Set(await theirs.names());
    const there = read.file.records.photos
      .map((photo) => photo['sha256'] as string)
      .filter((sha256) => names.has(pictureName(sha256, keys.install)) && !away.has(sha256));
    return {
      ...read,
      photos: new Set(there),
      photo: async (sha256) => {
        const bytes = await theirs.read(pictureName(sha256, keys.install));
        const found =
          bytes === null ? null : await besideTheLoop(openingProgram, bytes, keys.readingSecret);
        if (found === null) throw new PictureNotWhole(sha256);
        return Buffer.from(found);
      },
    };
  } finally {
    await received.remove(id);
  }
};
