import { toWithdrawal } from '../shapes/history.model.js';
import type { PhotoSubject } from './photo-subject.js';
import type { PhotoRow } from '../stock/rows/photo.entity.js';
import type { PhotoModel } from './photo.model.js';

export const toPhoto = (row: PhotoRow): PhotoModel => ({
  id: row.id,
  subjectKind: row.subjectKind as PhotoSubject,
  subjectId: row.subjectId,
  path: `/photos/${row.id}`,
  smallPath: `/photos/${row.id}/small`,
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
