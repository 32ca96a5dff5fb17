import { z } from 'zod';

export const FORMAT = 'linewright-backup';
/** Raised when a backup of before could no longer be read the same way. */
export const FORMAT_VERSION = 1;
export const MANIFEST = 'manifest.json';
export const MANIFEST_SUM = 'manifest.sha256';

const sum = z.string().regex(/^[\da-f]{64}$/);
const amount = z.int().min(0);
const name = z.string().regex(/^[a-z][a-z0-9_]{0,62}$/);

const tablePart = z.strictObject({
  table: name,
  columns: z.array(name).min(1).max(200),
  rows: amount,
  bytes: amount,
  sha256: sum,
});

const photoPart = z.strictObject({
  /** The picture's own hash, by which its file is named. */
  photo: sum,
  small: z.boolean(),
  bytes: amount,
  sha256: sum,
});

/** What a backup holds, part by part; see docs/methods/backup.md. */
export const manifestShape = z.strictObject({
  format: z.literal(FORMAT),
  formatVersion: z.int().min(1),
  program: z.string().max(100),
  madeAt: z.iso.datetime(),
  /** Schema changes that had been made, oldest first. */
  changes: z.array(z.string().max(200)).min(1).max(10_000),
  tables: z.array(tablePart).max(1_000),
  photos: z.array(photoPart),
  /** Pictures that a record speaks of, whose file was missing or not what its name says. */
  photosAmiss: z.array(sum),
});

export type Manifest = z.infer<typeof manifestShape>;
export type TablePart = Manifest['tables'][number];
export type PhotoPart = Manifest['photos'][number];

/** Names inside the file. */
export const tableFile = (table: string): string => `tables/${table}.copy`;
export const photoFile = (photo: string, small: boolean): string =>
  `photos/${photo}${small ? '.small' : ''}`;
