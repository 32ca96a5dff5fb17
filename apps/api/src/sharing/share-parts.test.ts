import { describe, expect, it } from 'vitest';
import { sharedKinds } from './share-fields.js';
import type { SharedRecord } from './share-record.js';
import { partsOf, recordOf, textsOf } from './share-parts.js';

describe.each(sharedKinds.map((kind) => [kind.group, kind] as const))('parts of %s', (_, kind) => {
  it('hold every field once, and only fields that there are', () => {
    const names = kind.fields.map(({ name }) => name);
    expect(
      partsOf(kind)
        .flatMap(({ fields }) => fields)
        .sort(),
    ).toEqual([...names].sort());
    expect(kind.together.flat().filter((name) => !names.includes(name))).toEqual([]);
  });

  it('tell the whole record', () => {
    const record: SharedRecord = {
      id: 'one',
      ...Object.fromEntries(kind.fields.map(({ name }, index) => [name, { b: index, a: [name] }])),
    };
    expect(recordOf(kind, 'one', textsOf(kind, record))).toEqual(record);
    const blank: SharedRecord = {
      id: 'two',
      ...Object.fromEntries(kind.fields.map(({ name }) => [name, null])),
    };
    expect(recordOf(kind, 'two', textsOf(kind, blank))).toEqual(blank);
  });
});
