import { stat } from 'node:fs/promises';
import type { PhotoFiles } from '../photo-files/photo-files.js';
import { keptElsewhere } from '../photo-files/photo-image.js';
import type { PhotoOnDisk } from './line-file/write-line-file.js';
import type { SharedRecord } from './share-record.js';
import type { SharePlanItem } from './share-plan.js';

/** Where pictures that go with records come from. */
export interface PhotoSource {
  readonly photos: ReadonlySet<string>;
  photo(sha256: string): Promise<Buffer>;
}

const hashOf = (record: SharedRecord): string => record['sha256'] as string;

const sizeOnDisk = async (files: PhotoFiles, sha256: string): Promise<number | null> =>
  stat(files.pathOf(sha256, 'full')).then(
    ({ size }) => size,
    () => null,
  );

/** Pictures that go out with records: those that stand and whose file is where it should be. */
export const photosOnDisk = async (
  files: PhotoFiles,
  records: readonly SharedRecord[],
): Promise<PhotoOnDisk[]> => {
  const found: PhotoOnDisk[] = [];
  for (const record of records) {
    if (record['withdrawnAt'] !== null) continue;
    const sha256 = hashOf(record);
    const bytes = await sizeOnDisk(files, sha256);
    if (bytes === null || bytes !== record['bytes']) continue;
    const mediaType = record['mediaType'] as string;
    found.push({ path: files.pathOf(sha256, 'full'), sha256, mediaType, bytes });
  }
  return found;
};

/** Hashes of the pictures that records name and that are neither here nor in the source. */
export const photosAway = async (
  files: PhotoFiles,
  records: readonly SharedRecord[],
  source: PhotoSource,
): Promise<Set<string>> => {
  const away = new Set<string>();
  for (const record of records) {
    const sha256 = hashOf(record);
    if (record['withdrawnAt'] !== null || source.photos.has(sha256)) continue;
    if ((await sizeOnDisk(files, sha256)) === null) away.add(sha256);
  }
  return away;
};

/**
 * Keeps the pictures of records that are to be taken in, before the records themselves: no record lacks its file.
 *
 * @throws RequestError `PHOTO_INVALID`, `PHOTO_TOO_LARGE` for one that is none
 */
export const keepPhotos = async (
  files: PhotoFiles,
  items: readonly SharePlanItem[],
  source: PhotoSource,
): Promise<void> => {
  for (const { kind, record, outcome } of items) {
    const isWritten = outcome === 'added' || outcome === 'updated';
    if (kind.group !== 'photos' || !isWritten || record['withdrawnAt'] !== null) continue;
    const sha256 = hashOf(record);
    if ((await sizeOnDisk(files, sha256)) !== null || !source.photos.has(sha256)) continue;
    const bytes = await source.photo(sha256);
    await files.keep(await keptElsewhere(bytes, sha256, record['mediaType'] as string));
  }
};
