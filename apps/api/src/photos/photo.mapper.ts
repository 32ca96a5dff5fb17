import type { PhotoSize } from '../photo-files/photo-files.js';
import { toWithdrawal } from '../shapes/history.model.js';
import type { PhotoSubject } from './photo-subject.js';
import type { PhotoRow } from '../stock/rows/photo.entity.js';
import type { PhotoModel } from './photo.model.js';

/** Carries the hash of what is there: a browser that kept it for good never shows an older picture. */
const addressOf = ({ id, sha256 }: PhotoRow, size: PhotoSize = 'full'): string =>
  `/photos/${id}${size === 'full' ? '' : `/${size}`}?is=${sha256.slice(0, 16)}`;

export const toPhoto = (row: PhotoRow): PhotoModel => ({
  id: row.id,
  subjectKind: row.subjectKind as PhotoSubject,
  subjectId: row.subjectId,
  path: addressOf(row),
  smallPath: addressOf(row, 'small'),
  tinyPath: addressOf(row, 'tiny'),
  takenOn: row.takenOn,
  addedAt: row.createdAt,
  caption: row.caption,
  mediaType: row.mediaType,
  bytes: row.bytes,
  width: row.width,
  height: row.height,
  sha256: row.sha256,
  revision: row.revision,
  withdrawn: toWithdrawal(row),
});
