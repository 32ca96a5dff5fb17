import { open, readFile, stat } from 'node:fs/promises';
import { besideTheLoop } from '../../jobs/beside.js';
import { expectShareSize, readShareFile, type ShareFile } from '../share-file.js';
import { readingProgram } from '../reading-program.js';
import { LARGEST_RECORDS, openLineFile, refusedFile } from './open-line-file.js';
import type { Manifest } from './manifest.js';
import { beginsAsZip, ZIP_BEGINNING } from '../../zip-files/zip-entries.js';

/** A line file that was read and found in order. */
export interface LineFileRead {
  readonly file: ShareFile;
  /** Who signed it; nobody did with older files. */
  readonly maker: Manifest['maker'] | null;
  /** The install that it was made for, if for one. */
  readonly madeFor: string | null;
  /** Hashes of the pictures in it. */
  readonly photos: ReadonlySet<string>;
  photo(sha256: string): Promise<Buffer>;
  close(): void;
}

/** Characters; longer records are read in a thread. */
const LARGEST_READ_AT_ONCE = 200_000;

const recordsOf = async (text: string, signed: boolean): Promise<ShareFile> => {
  if (text.length <= LARGEST_READ_AT_ONCE) return readShareFile(text, signed);
  expectShareSize(text);
  return besideTheLoop(readingProgram, text, signed);
};

const isZip = async (path: string): Promise<boolean> => {
  const file = await open(path, 'r');
  try {
    const { buffer, bytesRead } = await file.read(Buffer.alloc(ZIP_BEGINNING), 0, ZIP_BEGINNING, 0);
    return beginsAsZip(buffer.subarray(0, bytesRead));
  } finally {
    await file.close();
  }
};

/** A file of versions 1 to 4: JSON, signed by nobody, without pictures. */
const readPlain = async (path: string): Promise<LineFileRead> => {
  const { size } = await stat(path);
  if (size > LARGEST_RECORDS)
    throw refusedFile(`it has more than ${LARGEST_RECORDS / 1024 / 1024} MB of records`);
  const file = await recordsOf(await readFile(path, 'utf8'), false);
  return {
    ...{ file, maker: null, madeFor: null, photos: new Set<string>() },
    photo: (sha256) => Promise.reject(refusedFile(`it has no picture ${sha256}`)),
    close: () => undefined,
  };
};

/**
 * Reads a line file of any version; whoever asked closes it.
 *
 * @throws RequestError `SHARE_INVALID` with the first thing that is wrong
 */
export const readLineFile = async (path: string): Promise<LineFileRead> => {
  if (!(await isZip(path))) return readPlain(path);
  const opened = await openLineFile(path);
  try {
    const { manifest, photos } = opened;
    const file = await recordsOf(opened.records, true);
    if (file.installs[0]?.id !== manifest.maker.install)
      throw refusedFile('its records name another install as their maker than the one that signed');
    return {
      ...{ file, maker: manifest.maker, madeFor: manifest.madeFor, photos },
      photo: (sha256) => opened.photo(sha256),
      close: () => opened.close(),
    };
  } catch (error) {
    opened.close();
    throw error;
  }
};
