import { type MergedRecord, pack, type Packed, type Stamp, unpack } from '@linewright/merging';
import { z } from 'zod';
import { LARGEST_INTEGER } from '../limits/lengths.js';
import type { SharedKind } from './share-fields.js';
import { cutApart, forEachPart } from './share-former-parts.js';
import type { SharedRecord } from './share-record.js';
import { inOrder } from './share-json.js';
import { partsOf, textsOf } from './share-parts.js';
import { shapes } from './share-shapes.js';

/** Installs that one stamp may name. */
const MOST_INSTALLS = 1_000;
/** Different stamps in one file. */
const MOST_STAMPS = 200_000;
/** Versions of one part beside the one shown. */
const MOST_VERSIONS = 100;
/** Parts that a record of any kind may have. */
const MOST_PARTS = 40;

const stampShape = z
  .record(shapes.id, z.int().min(1).max(LARGEST_INTEGER))
  .refine(
    (stamp) => Object.keys(stamp).length <= MOST_INSTALLS,
    `it names more than ${MOST_INSTALLS} installs`,
  );
const numberShape = z.int().min(0).max(MOST_STAMPS);
const partName = z.string().max(60);

const versionsShape = z.union([
  numberShape,
  z.object({
    all: numberShape,
    parts: z.record(partName, numberShape).optional(),
    others: z
      .record(
        partName,
        z
          .array(z.object({ values: z.array(z.unknown()).max(40), stamp: numberShape }))
          .max(MOST_VERSIONS),
      )
      .optional(),
    missing: z.array(partName).max(MOST_PARTS).optional(),
  }),
]);

/** Stamps once each, and for each record by id the numbers of those that its versions bear. */
export const stampsShape = z.array(stampShape).max(MOST_STAMPS);
export const versionsById = z.record(shapes.id, versionsShape);

export type VersionsInFile = z.infer<typeof versionsShape>;

/** Versions of records as a file has them. */
export interface FileVersions {
  readonly stamps: readonly Stamp[];
  readonly versions: Readonly<Record<string, VersionsInFile>>;
}

type VersionedFile = FileVersions & { readonly version: number };

export interface VersionedRecord {
  readonly kind: SharedKind;
  readonly record: SharedRecord;
  readonly state: MergedRecord;
}

const mapped = <A, B>(of: Readonly<Record<string, A>>, make: (value: A) => B): Record<string, B> =>
  Object.fromEntries(Object.entries(of).map(([name, value]) => [name, make(value)]));

/** What goes into a file beside its records. Cost: linear in the records. */
export const versionsForFile = (records: readonly VersionedRecord[]): FileVersions => {
  const numbers = new Map<string, number>();
  const stamps: Stamp[] = [];
  const numberOf = (stamp: Stamp): number => {
    const written = JSON.stringify(stamp);
    const known = numbers.get(written) ?? stamps.push(stamp) - 1;
    numbers.set(written, known);
    return known;
  };
  const versions = records.map(({ kind, record, state }): [string, VersionsInFile] => {
    const { all, parts, others, missing } = pack(state, textsOf(kind, record));
    if (parts === undefined && others === undefined && missing === undefined)
      return [record.id, numberOf(all)];
    return [
      record.id,
      {
        all: numberOf(all),
        ...(parts !== undefined && { parts: mapped(parts, numberOf) }),
        ...(others !== undefined && {
          others: mapped(others, (part) =>
            part.map(({ text, stamp }) => ({
              values: JSON.parse(text) as unknown[],
              stamp: numberOf(stamp),
            })),
          ),
        }),
        ...(missing !== undefined && { missing: [...missing] }),
      },
    ];
  });
  return { stamps, versions: Object.fromEntries(versions) };
};

/** A number that no stamp of the file has, or a part that the kind does not have. */
export class VersionsProblem extends Error {}

/** Another version's values are what the fields of the kind may be, as those of the record are. */
const expectValues = (kind: SharedKind, name: string, values: readonly unknown[]): unknown[] => {
  const fields = partsOf(kind).find((part) => part.name === name)?.fields ?? [];
  if (values.length !== fields.length || fields.length === 0)
    throw new VersionsProblem(`its other version of "${name}" has ${values.length} values`);
  return fields.map((field, index) => {
    const { shape, optional } = kind.fields.find((one) => one.name === field)!;
    const value = values[index];
    if (value === null && optional) return null;
    const read = shape.safeParse(value);
    if (read.success) return inOrder(read.data);
    throw new VersionsProblem(
      `its other version of "${field}" (${JSON.stringify(value).slice(0, 80)}) cannot be taken`,
    );
  });
};

/** The last version in which some parts held more fields. */
const FORMER_PARTS_VERSION = 4;

const packedOf = (kind: SharedKind, file: VersionedFile, given: VersionsInFile): Packed => {
  const { stamps, version } = file;
  const stampOf = (number: number): Stamp => {
    const stamp = stamps[number];
    if (stamp === undefined)
      throw new VersionsProblem(`it names stamp ${number}, which is missing`);
    return stamp;
  };
  if (typeof given === 'number') return { all: stampOf(given) };
  const isFormer = version <= FORMER_PARTS_VERSION;
  const parts = mapped(given.parts ?? {}, stampOf);
  const told = given.others ?? {};
  const cut = isFormer
    ? cutApart(
        kind,
        told,
        ({ values }) => values,
        (one, values) => ({ ...one, values: [...values] }),
      )
    : told;
  const others = Object.entries(cut).map(([name, versions]) => [
    name,
    versions.map(({ values, stamp }) => ({
      text: JSON.stringify(expectValues(kind, name, values)),
      stamp: stampOf(stamp),
    })),
  ]);
  const missing = (given.missing ?? []).filter((name) =>
    partsOf(kind).some((part) => part.name === name),
  );
  return {
    all: stampOf(given.all),
    parts: isFormer ? forEachPart(kind, parts) : parts,
    others: Object.fromEntries(others) as NonNullable<Packed['others']>,
    missing,
  };
};

/** Names of the parts of a record that the file was not given. */
export const missingIn = ({ versions }: FileVersions, id: string): readonly string[] => {
  const given = versions[id];
  return typeof given === 'object' ? (given.missing ?? []) : [];
};

/** @throws VersionsProblem */
export const stateInFile = (
  kind: SharedKind,
  record: SharedRecord,
  file: VersionedFile,
): MergedRecord => {
  const given = file.versions[record.id];
  if (given === undefined) throw new VersionsProblem('it has no "versions"');
  return unpack(packedOf(kind, file, given), textsOf(kind, record));
};
