import type { Pixels } from '@linewright/pictures';
import { createHash } from 'node:crypto';
import { RequestError } from '../errors/request-error.js';
import type { PreparedPhoto } from './photo-files.js';

/** Largest file taken, in bytes: phones' pictures stay below it. */
export const LARGEST_PHOTO = 25 * 1024 * 1024;
/** Most pixels decoded: a small file may claim to be enormous. */
export const MOST_PIXELS = 120_000_000;
/** Longest side kept, and longest side of a thumbnail. */
const LONGEST_SIDE = 3_000;
const LONGEST_SMALL_SIDE = 480;
const LONGEST_TINY_SIDE = 144;

export type PhotoFormat = 'jpeg' | 'png' | 'webp';

export const mediaTypes: Readonly<Record<PhotoFormat, string>> = {
  jpeg: 'image/jpeg',
  png: 'image/png',
  webp: 'image/webp',
};

const invalid = (message: string): RequestError => new RequestError('PHOTO_INVALID', message);

const begins = (bytes: Buffer, signature: readonly number[], at = 0): boolean =>
  bytes.length >= at + signature.length && signature.every((byte, k) => bytes[at + k] === byte);

/** What a file is by its first bytes, whatever its name and its sender say. */
export const photoFormat = (bytes: Buffer): PhotoFormat => {
  if (begins(bytes, [0xff, 0xd8, 0xff])) return 'jpeg';
  if (begins(bytes, [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])) return 'png';
  if (bytes.toString('latin1', 0, 4) === 'RIFF' && bytes.toString('latin1', 8, 12) === 'WEBP')
    return 'webp';
  const brand = bytes.toString('latin1', 4, 12);
  if (/^ftyp(hei|hev|mif|msf|avi)/.test(brand)) {
    throw invalid(
      'This is a HEIC or AVIF picture, which is not read here: choose "Most compatible" in the camera settings of the phone, or save it as JPEG.',
    );
  }
  throw invalid('This file is not a JPEG, PNG or WebP picture: choose one of these.');
};

const read = async (
  bytes: Buffer,
  format: PhotoFormat,
): Promise<Omit<PreparedPhoto, 'sha256' | 'mediaType'>> => {
  // Loaded at the first picture: most starts of the server need none.
  const { default: sharp } = await import('sharp');
  const open = () =>
    sharp(bytes, { failOn: 'error', limitInputPixels: MOST_PIXELS, pages: 1 }).autoOrient();
  const fitted = (side: number) =>
    open().resize({ width: side, height: side, fit: 'inside', withoutEnlargement: true });
  // Without being asked to keep it, the library writes no metadata: no position, no camera, no text.
  const { data, info } = await fitted(LONGEST_SIDE)
    .toFormat(format, format === 'png' ? {} : { quality: 85 })
    .toBuffer({ resolveWithObject: true });
  const small = await fitted(LONGEST_SMALL_SIDE).webp({ quality: 75 }).toBuffer();
  return { file: data, small, width: info.width, height: info.height };
};

/** Reads, turns upright by its orientation mark, strips all metadata and fits; a file that is no whole picture is an error. */
export const preparePhoto = async (bytes: Buffer): Promise<PreparedPhoto> => {
  const format = photoFormat(bytes);
  const { default: sharp } = await import('sharp');
  let picture: Omit<PreparedPhoto, 'sha256' | 'mediaType'>;
  try {
    const { width, height } = await sharp(bytes, { limitInputPixels: false }).metadata();
    if (width * height > MOST_PIXELS) {
      throw new RequestError(
        'PHOTO_TOO_LARGE',
        `This picture is ${width} by ${height} pixels, more than ${MOST_PIXELS / 1_000_000} million: make it smaller first.`,
      );
    }
    picture = await read(bytes, format);
  } catch (error) {
    if (error instanceof RequestError) throw error;
    throw invalid(
      'This picture cannot be read to its end: it may be damaged. Take or save it again.',
    );
  }
  const sha256 = createHash('sha256').update(picture.file).digest('hex');
  return { ...picture, sha256, mediaType: mediaTypes[format] };
};

/**
 * A picture as another install kept it, taken as it is: its content has to be what its hash says, of the kind that is said, and a picture
 * to its end. Its thumbnail is made here.
 *
 * @throws RequestError `PHOTO_INVALID`, `PHOTO_TOO_LARGE`
 */
export const keptElsewhere = async (
  bytes: Buffer,
  sha256: string,
  mediaType: string,
): Promise<PreparedPhoto> => {
  if (createHash('sha256').update(bytes).digest('hex') !== sha256)
    throw invalid('A picture is not the one that its record names: it was altered on its way.');
  if (mediaTypes[photoFormat(bytes)] !== mediaType)
    throw invalid(`A picture is not of the kind that its record says (${mediaType}).`);
  // Read to its end on the way to its thumbnail.
  const { small, width, height } = await preparePhoto(bytes);
  return { file: bytes, small, sha256, mediaType, width, height };
};

/** A thumbnail made smaller still, for a row of a list (WebP). */
export const tinyOf = async (small: string): Promise<Buffer> => {
  const { default: sharp } = await import('sharp');
  const fitted = { width: LONGEST_TINY_SIDE, height: LONGEST_TINY_SIDE, fit: 'inside' } as const;
  return sharp(small)
    .resize({ ...fitted, withoutEnlargement: true })
    .webp({ quality: 70 })
    .toBuffer();
};

/** A kept picture in its colours, row by row. */
export const pixelsOf = async (path: string): Promise<Pixels> => {
  const { default: sharp } = await import('sharp');
  const { data, info } = await sharp(path)
    .removeAlpha()
    .toColourspace('srgb')
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { width: info.width, height: info.height, channels: 3, data };
};
