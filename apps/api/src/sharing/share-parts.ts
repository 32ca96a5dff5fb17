import type { Texts } from '@linewright/merging';
import type { SharedKind } from './share-fields.js';
import type { SharedRecord } from './share-record.js';
import { inOrder } from './share-json.js';

/** Fields of a record that change as one; the first names the part. */
export interface RecordPart {
  readonly name: string;
  readonly fields: readonly string[];
}

const partsByKind = new Map<SharedKind, readonly RecordPart[]>();

/** The parts of a kind's records, in the order of its fields. */
export const partsOf = (kind: SharedKind): readonly RecordPart[] => {
  const known = partsByKind.get(kind);
  if (known !== undefined) return known;
  const parts = kind.fields.flatMap(({ name }): RecordPart[] => {
    const group = kind.together.find((names) => names.includes(name)) ?? [name];
    return group[0] === name ? [{ name, fields: group }] : [];
  });
  partsByKind.set(kind, parts);
  return parts;
};

/** Each part of a record as one text: the values of its fields, in one order all the way down. */
export const textsOf = (kind: SharedKind, record: SharedRecord): Texts =>
  Object.fromEntries(
    partsOf(kind).map(({ name, fields }) => [
      name,
      JSON.stringify(fields.map((field) => inOrder(record[field] ?? null))),
    ]),
  );

/** The values of a part's fields, by their names. */
export const valuesOf = ({ fields }: RecordPart, text: string): Record<string, unknown> => {
  const values = JSON.parse(text) as unknown[];
  return Object.fromEntries(fields.map((field, index) => [field, values[index] ?? null]));
};

/** The record that the texts of its parts tell. */
export const recordOf = (kind: SharedKind, id: string, texts: Texts): SharedRecord => ({
  id,
  ...Object.fromEntries(
    partsOf(kind).flatMap((part) => {
      const text = texts[part.name];
      return text === undefined ? [] : Object.entries(valuesOf(part, text));
    }),
  ),
});
