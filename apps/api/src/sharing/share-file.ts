import { createHash } from 'node:crypto';
import { RequestError } from '../errors/request-error.js';
import { isCalendarDate } from '../graphql/date.scalar.js';
import {
  type SharedField,
  type SharedKind,
  sharedKinds,
  type ShareGroup,
  shareGroups,
} from './share-fields.js';

export const SHARE_FORMAT = 'linewright-line';
export const SHARE_VERSION = 3;
/** Older files are read: they say nothing of what came later. */
const OLDEST_VERSION = 1;

/** Stands in a fingerprint for an empty field that would usually hold something. */
const UNKNOWN = 'unknown';

/** The shared fields of one record, and its id; empty fields are `null`. */
export type SharedRecord = Readonly<Record<string, unknown>> & { readonly id: string };

export interface SharedKeeper {
  readonly id: string;
  readonly name: string;
}

/** One line as it travels between installs. */
export interface ShareFile {
  readonly format: typeof SHARE_FORMAT;
  readonly version: number;
  readonly exportedAt: string;
  /** Who sends it. */
  readonly keeper: SharedKeeper;
  /** Every keeper whose records are in it. */
  readonly keepers: readonly SharedKeeper[];
  readonly lineId: string;
  readonly records: Readonly<Record<ShareGroup, readonly SharedRecord[]>>;
  /** Record id to the fingerprint of what the sender last agreed on with a partner. */
  readonly agreed: Readonly<Record<string, string>>;
  /** What the receiver may do; nothing is granted or withheld yet. */
  readonly grants: null;
  /** Room for the sender's signature over the rest. */
  readonly signature: null;
}

const invalid = (message: string): RequestError =>
  new RequestError('SHARE_INVALID', `This is not a line file that can be read: ${message}`);

const uuid = /^[\da-f]{8}(-[\da-f]{4}){3}-[\da-f]{12}$/;

const fits: Readonly<Record<SharedField['type'], (value: unknown) => boolean>> = {
  id: (value) => typeof value === 'string' && uuid.test(value),
  text: (value) => typeof value === 'string' && !value.includes('\0'),
  date: (value) => typeof value === 'string' && isCalendarDate(value),
  instant: (value) =>
    typeof value === 'string' &&
    /^\d{4}-\d\d-\d\dT/.test(value) &&
    !Number.isNaN(Date.parse(value)),
  integer: (value) => Number.isInteger(value) && Math.abs(value as number) < 2 ** 31,
  number: (value) => typeof value === 'number' && Number.isFinite(value),
  boolean: (value) => typeof value === 'boolean',
  texts: (value) => Array.isArray(value) && value.every((item) => fits.text(item)),
  json: () => true,
};

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The record with exactly its shared fields, values in the one way this format writes them. */
export const canonicalRecord = (
  kind: SharedKind,
  raw: Readonly<Record<string, unknown>>,
): SharedRecord => {
  const record: Record<string, unknown> = { id: raw['id'] };
  for (const { name, type, form } of kind.fields) {
    const value = raw[name] ?? null;
    // Databases keep microseconds and clocks give milliseconds.
    if (type === 'instant' && typeof value === 'string')
      record[name] = new Date(value).toISOString();
    else record[name] = form === undefined || value === null ? value : form.canonical(value);
  }
  return record as SharedRecord;
};

/**
 * Fingerprint of a record's shared content: SHA-256 over its kind and its fields by name, empty ones left out, and so is a
 * field that holds what the rest of the record says anyway: fingerprints of before that field came still hold. Revision and
 * times of recording are no part of it, for they differ between installs.
 */
export const contentHash = (kind: SharedKind, record: SharedRecord): string => {
  const content = kind.fields
    .map(({ name, usual }) => {
      const value = record[name] ?? null;
      if (usual === undefined) return [name, value] as const;
      return [name, value === usual(record) ? null : (value ?? UNKNOWN)] as const;
    })
    .filter(([, value]) => value !== null)
    .sort(([a], [b]) => (a < b ? -1 : 1));
  return createHash('sha256')
    .update(JSON.stringify([kind.kind, record.id, content]))
    .digest('hex');
};

const checkRecord = (kind: SharedKind, raw: unknown, place: string): SharedRecord => {
  if (!isObject(raw)) throw invalid(`${place} is not a record.`);
  if (!fits.id(raw['id'])) throw invalid(`${place} has no id (a UUID in small letters).`);
  for (const { name, type, optional, oneOf, form } of kind.fields) {
    const value = raw[name] ?? null;
    const shown = (JSON.stringify(value) ?? '').slice(0, 80);
    if (value === null && !optional) throw invalid(`${place} has no "${name}".`);
    if (value !== null && !fits[type](value))
      throw invalid(`${place} has ${shown} as "${name}", which is no ${type}.`);
    const wrong = value === null ? null : (form?.problem(value) ?? null);
    if (wrong !== null) throw invalid(`${place}: its "${name}" ${wrong}.`);
    if (value !== null && oneOf !== undefined && !oneOf.includes(value as string)) {
      throw invalid(`${place} has ${shown} as "${name}": it is one of ${oneOf.join(', ')}.`);
    }
  }
  return canonicalRecord(kind, raw);
};

const checkKeeper = (raw: unknown, place: string): SharedKeeper => {
  if (
    !isObject(raw) ||
    !fits.id(raw['id']) ||
    typeof raw['name'] !== 'string' ||
    raw['name'].trim() === ''
  ) {
    throw invalid(`${place} needs an id and a name.`);
  }
  return { id: raw['id'] as string, name: raw['name'] };
};

const checkRecords = (raw: unknown, version: number): Record<ShareGroup, SharedRecord[]> => {
  if (!isObject(raw)) throw invalid('it has no records.');
  const records = Object.fromEntries(shareGroups.map((group) => [group, []])) as unknown as Record<
    ShareGroup,
    SharedRecord[]
  >;
  const seen = new Set<string>();
  for (const kind of sharedKinds) {
    const list = raw[kind.group] ?? (kind.since > version ? [] : undefined);
    if (!Array.isArray(list)) throw invalid(`its records have no list "${kind.group}".`);
    for (const [index, item] of list.entries()) {
      const record = checkRecord(kind, item, `number ${index + 1} of "${kind.group}"`);
      if (seen.has(record.id)) throw invalid(`the id ${record.id} stands twice.`);
      seen.add(record.id);
      records[kind.group].push(record);
    }
  }
  return records;
};

const checkAgreed = (raw: unknown): Record<string, string> => {
  if (raw === undefined) return {};
  if (!isObject(raw) || !Object.values(raw).every((hash) => typeof hash === 'string')) {
    throw invalid('"agreed" is not a list of fingerprints.');
  }
  return raw as Record<string, string>;
};

/** Reads a line file and checks its form; what the records say of each other is checked against the tables. */
export const readShareFile = (text: string): ShareFile => {
  let raw: unknown;
  try {
    raw = JSON.parse(text);
  } catch (error) {
    throw invalid(
      `it is not JSON (${(error as Error).message}). Choose a file made with "share this line".`,
    );
  }
  if (!isObject(raw) || raw['format'] !== SHARE_FORMAT) {
    throw invalid(
      `its format is not "${SHARE_FORMAT}". Choose a file made with "share this line".`,
    );
  }
  const version = raw['version'];
  if (
    !Number.isInteger(version) ||
    (version as number) < OLDEST_VERSION ||
    (version as number) > SHARE_VERSION
  ) {
    throw invalid(
      `it has version ${JSON.stringify(version)}, and this program reads versions ${OLDEST_VERSION} to ${SHARE_VERSION}: use the newer release on both sides.`,
    );
  }
  if (!fits.instant(raw['exportedAt']))
    throw invalid('it does not say when it was made ("exportedAt").');
  if (!Array.isArray(raw['keepers'])) throw invalid('it has no list of keepers.');
  const records = checkRecords(raw['records'], version as number);
  const lineId = raw['lineId'];
  if (typeof lineId !== 'string' || !records.lines.some((line) => line.id === lineId)) {
    throw invalid('the line it is about ("lineId") is not among its lines.');
  }
  return {
    format: SHARE_FORMAT,
    version: version as number,
    exportedAt: raw['exportedAt'] as string,
    keeper: checkKeeper(raw['keeper'], 'the sender'),
    keepers: raw['keepers'].map((keeper, index) => checkKeeper(keeper, `keeper ${index + 1}`)),
    lineId,
    records,
    agreed: checkAgreed(raw['agreed']),
    grants: null,
    signature: null,
  };
};
