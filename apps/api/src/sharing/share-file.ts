import { createHash } from 'node:crypto';
import { z } from 'zod';
import { isWithin, type JsonBounds } from '../limits/json-shape.js';
import { RequestError } from '../errors/request-error.js';
import { LENGTHS } from '../limits/lengths.js';
import { type SharedKind, sharedKinds, type ShareGroup } from './share-fields.js';
import { LINE_FILE, LINE_FILE_VERSION } from './line-file/manifest.js';
import { inOrder } from './share-json.js';
import type { SharedRecord } from './share-record.js';
import { shapes } from './share-shapes.js';
import { type FileVersions, stampsShape, versionsById } from './share-versions.js';

export const SHARE_FORMAT = LINE_FILE;
export const SHARE_VERSION = LINE_FILE_VERSION;
/** The first that tells the versions of its records. */
export const STAMPED_VERSION = 4;
/** The first that is signed: its records stand in a ZIP file beside the signature, and alone they prove nothing. */
export const SIGNED_VERSION = 5;
/** Older files are read: they say nothing of what came later. */
const OLDEST_VERSION = 1;

/** Stands in a fingerprint for an empty field that would usually hold something. */
const UNKNOWN = 'unknown';

export interface SharedPerson {
  readonly id: string;
  readonly name: string;
}

/** One line as it travels between installs. */
export interface ShareFile {
  readonly format: typeof SHARE_FORMAT;
  readonly version: number;
  readonly exportedAt: string;
  /** Who sends it. */
  readonly sender: SharedPerson;
  /** Every person whose records are in it. */
  readonly people: readonly SharedPerson[];
  readonly lineId: string;
  readonly records: Readonly<Record<ShareGroup, readonly SharedRecord[]>>;
  /** Up to version 3: record id to the fingerprint of what the sender last agreed on with a partner. */
  readonly agreed: Readonly<Record<string, string>>;
  /** From version 4: the sender's install, and the others that stamps of the file name. */
  readonly installs: readonly { readonly id: string; readonly name: string }[];
  /** From version 4: what is known of the versions of each record. */
  readonly stamps: FileVersions['stamps'];
  readonly versions: FileVersions['versions'];
}

const invalid = (message: string): RequestError =>
  new RequestError('SHARE_INVALID', `This is not a line file that can be read: ${message}`);

/** Records of one group, and people, in one file. */
const MOST_RECORDS = 200_000;
const MOST_PEOPLE = 1_000;

/** One record as its kind has it; empty fields are `null`, keys that the format does not know are left out. */
const recordShape = (kind: SharedKind): z.ZodType<SharedRecord> =>
  z
    .object({
      id: shapes.id,
      ...Object.fromEntries(
        kind.fields.map(({ key, shape, optional }) => [
          key,
          optional ? shape.nullish().transform((value) => value ?? null) : shape,
        ]),
      ),
    })
    .transform((read: Readonly<Record<string, unknown>>) => ({
      id: read['id'],
      ...Object.fromEntries(kind.fields.map(({ name, key }) => [name, read[key]])),
    })) as unknown as z.ZodType<SharedRecord>;

/** Groups that came later are missing from older files: there they are empty. */
const recordsShape = (version: number) =>
  z
    .object(
      Object.fromEntries(
        sharedKinds.map((kind) => {
          const list = z.array(recordShape(kind)).max(MOST_RECORDS);
          return [kind.keys.group, kind.since > version ? list.default([]) : list];
        }),
      ),
    )
    .transform(
      (read) =>
        Object.fromEntries(
          sharedKinds.map(({ group, keys }) => [group, read[keys.group]]),
        ) as unknown as ShareFile['records'],
    );

const personShape = z.object({
  id: shapes.id,
  name: shapes.name.refine((name) => name.trim() !== '', 'it is empty'),
});

const installShape = z.object({ id: shapes.id, name: shapes.name });

const formatShape = z.looseObject({ format: z.literal(SHARE_FORMAT) });

const versionShape = (signed: boolean) =>
  z.object({
    version: signed
      ? z.literal(SIGNED_VERSION)
      : z
          .int()
          .min(OLDEST_VERSION)
          .max(SIGNED_VERSION - 1),
  });

/** Older files do not have it. */
const fromStamped = <T>(version: number, shape: z.ZodType<T>, empty: T): z.ZodType<T> =>
  version >= STAMPED_VERSION
    ? shape
    : (z
        .unknown()
        .optional()
        .transform(() => empty) as unknown as z.ZodType<T>);

const agreedShape = z.record(shapes.id, z.string().max(LENGTHS.word)).default({});

/** What a file of a version holds, under its names there. */
export const contentShape = (version: number) =>
  z.object({
    exportedAt: shapes.instant,
    keeper: personShape,
    keepers: z.array(personShape).max(MOST_PEOPLE),
    lineId: shapes.id,
    records: recordsShape(version),
    agreed: agreedShape,
    installs: fromStamped(version, z.array(installShape).max(MOST_PEOPLE), []),
    stamps: fromStamped(version, stampsShape, []),
    versions: fromStamped(version, versionsById, {}),
  });

const shapeOf = (version: number) =>
  contentShape(version).transform(({ keeper: sender, keepers: people, ...read }) => ({
    ...{ ...read, sender, people },
  }));

/** Each is made once: a shape is slow to make and quick to use. */
const shapesByVersion = new Map<number, ReturnType<typeof shapeOf>>();
const fileShape = (version: number): ReturnType<typeof shapeOf> => {
  const made = shapesByVersion.get(version) ?? shapeOf(version);
  shapesByVersion.set(version, made);
  return made;
};

const valueAt = (raw: unknown, path: readonly PropertyKey[]): unknown =>
  path.reduce<unknown>(
    (at, key) =>
      typeof at === 'object' && at !== null ? (at as Record<PropertyKey, unknown>)[key] : undefined,
    raw,
  );

const shown = (value: unknown): string => {
  const text = typeof value === 'string' ? value.slice(0, 80) : value;
  return (JSON.stringify(text) ?? '').slice(0, 80);
};

/** Where it is and what is wrong with it: `number 3 of "fish": its "sex" is "boy" (…)`. */
const wordsFor = (raw: unknown, { path, message }: z.core.$ZodIssue): string => {
  const inRecord = path[0] === 'records' && typeof path[2] === 'number';
  const place = inRecord ? `number ${(path[2] as number) + 1} of "${String(path[1])}": ` : '';
  const name = path.slice(inRecord ? 3 : 0).join('.');
  if (name === '') return `${place}it is not a record.`;
  const value = valueAt(raw, path);
  if (value === undefined || value === null) return `${place}it has no "${name}".`;
  return `${place}its "${name}" (${shown(value)}) cannot be taken: ${message.replace(/^Invalid input: /, '')}.`;
};

/** @throws RequestError `SHARE_INVALID` with the first thing that is wrong. */
const expectShape = <T>(shape: z.ZodType<T>, raw: unknown): T => {
  const read = shape.safeParse(raw);
  if (read.success) return read.data;
  throw invalid(wordsFor(raw, read.error.issues[0]!));
};

/**
 * The record with exactly its shared fields, values in the one way this format writes them. What was recorded here under
 * older rules and fits no longer stays as it is: it still compares equal to itself.
 */
export const canonicalRecord = (
  kind: SharedKind,
  raw: Readonly<Record<string, unknown>>,
): SharedRecord => {
  const record: Record<string, unknown> = { id: raw['id'] };
  for (const { name, shape } of kind.fields) {
    const value = raw[name] ?? null;
    const read = value === null ? null : shape.safeParse(value);
    record[name] = read === null ? null : read.success ? read.data : inOrder(value);
  }
  return record as SharedRecord;
};

/**
 * Fingerprint of a record's shared content: SHA-256 over its kind and its fields by their names in the file, empty ones left out, and so is a
 * field that holds what the rest of the record says anyway: fingerprints of before that field came still hold. Revision and
 * times of recording are no part of it, for they differ between installs.
 */
export const contentHash = (kind: SharedKind, record: SharedRecord): string => {
  const content = kind.fields
    .map(({ name, key, usual }) => {
      const value = record[name] ?? null;
      if (usual === undefined) return [key, value] as const;
      return [key, value === usual(record) ? null : (value ?? UNKNOWN)] as const;
    })
    .filter(([, value]) => value !== null)
    .sort(([a], [b]) => (a < b ? -1 : 1));
  return createHash('sha256')
    .update(JSON.stringify([kind.keys.kind, record.id, content]))
    .digest('hex');
};

/** Of a file as such: parsing takes memory for every part before any of them is looked at. */
const BOUNDS: JsonBounds = { depth: 16, parts: 500_000 };

/** @throws RequestError `SHARE_INVALID` for what no line file holds, before any of it is built. */
export const expectShareSize = (text: string): void => {
  if (isWithin(Buffer.from(text), BOUNDS)) return;
  throw invalid(
    `it has more than ${BOUNDS.parts.toLocaleString('en')} values, or more than ${BOUNDS.depth} lists inside one another. Choose a file made with "share this line".`,
  );
};

const parsed = (text: string): unknown => {
  try {
    return JSON.parse(text);
  } catch (error) {
    throw invalid(
      `it is not JSON (${(error as Error).message}). Choose a file made with "share this line".`,
    );
  }
};

const expectIdsOnce = (records: ShareFile['records']): void => {
  const seen = new Set<string>();
  for (const { group } of sharedKinds)
    for (const { id } of records[group]) {
      if (seen.has(id)) throw invalid(`the id ${id} occurs twice.`);
      seen.add(id);
    }
};

/** Why a version is not read: a newer program made it, or it has lost its signature. */
const wordsForVersion = (raw: unknown, signed: boolean): string => {
  const version = valueAt(raw, ['version']);
  if (version === SIGNED_VERSION && !signed)
    return `it is the part of a signed file that holds the records, without its signature. Choose the whole file (.zip).`;
  return `it has version ${shown(version)}, and this program reads versions ${OLDEST_VERSION} to ${SHARE_VERSION}: use the newer release on both sides.`;
};

/**
 * Reads the records of a line and checks their form; what they say of each other is checked against the tables.
 *
 * @param signed whether the text stood in a file whose signature was checked; older versions had none
 */
export const readShareFile = (text: string, signed: boolean): ShareFile => {
  expectShareSize(text);
  const raw = parsed(text);
  if (!formatShape.safeParse(raw).success) {
    throw invalid(
      `its format is not "${SHARE_FORMAT}". Choose a file made with "share this line".`,
    );
  }
  const head = versionShape(signed).safeParse(raw);
  if (!head.success) throw invalid(wordsForVersion(raw, signed));
  const { version } = head.data;
  const read = expectShape(fileShape(version), raw);
  expectIdsOnce(read.records);
  if (!read.records.lines.some((line) => line.id === read.lineId)) {
    throw invalid('the line it is about ("lineId") is not among its lines.');
  }
  return { ...read, format: SHARE_FORMAT, version };
};

const recordInFile = ({ fields }: SharedKind, record: SharedRecord): object => ({
  id: record.id,
  ...Object.fromEntries(fields.map(({ name, key }) => [key, record[name]])),
});

/** The records of a line as they are written: under the names that every version of the format has. Cost: linear in its records. */
export const shareFileText = ({ sender, people, lineId, records, ...file }: ShareFile): string => {
  const { format, version, exportedAt, installs, stamps, versions } = file;
  const lists = sharedKinds.map((kind) => [
    kind.keys.group,
    records[kind.group].map((record) => recordInFile(kind, record)),
  ]);
  const written = {
    ...{ format, version, exportedAt, keeper: sender, keepers: people, lineId },
    ...{ records: Object.fromEntries(lists) as object, installs, stamps, versions },
  };
  return `${JSON.stringify(written, null, 1)}\n`;
};
