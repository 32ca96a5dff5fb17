import { describe, expect, it } from 'vitest';
import { sharedKinds } from './share-fields.js';
import { readShareFile, shareFileText } from './share-file.js';

const id = '11111111-1111-4111-8111-111111111111';
const other = '33333333-3333-4333-8333-333333333333';
const personId = '22222222-2222-4222-8222-222222222222';

const locus = {
  id: 'spot',
  name: 'Spot',
  alleles: [
    { id: 'S', symbol: 'S', name: 'spot' },
    { id: 's', symbol: 's', name: 'plain' },
  ],
  phenotypes: [
    { id: 'spotted', name: 'spotted' },
    { id: 'plain', name: 'plain' },
  ],
  expression: [
    { genotype: 'S/-', shows: [{ phenotype: 'spotted', probability: '1' }] },
    { genotype: 's/s', shows: [{ phenotype: 'plain', probability: '1' }] },
  ],
};
const everyPart = {
  ...{ layer: 'body', dominance: 'complete', dominanceNote: 'a note', notations: [] },
  hiddenBy: [{ locus: 'c', phenotypes: ['light'], why: 'not seen on it' }],
  ...{ viability: [], fertility: [], risks: ['a risk'], notes: ['a note'], testable: true },
  scoring: { fromWeeks: 8, note: 'seen then', basis: 'the keeper' },
};

const fileWith = (group: string, record: object, version = 2): string => {
  const groups = Object.fromEntries(sharedKinds.map((kind) => [kind.keys.group, [] as unknown[]]));
  const lines = [{ id, keeperId: personId, code: 'R', name: 'Red' }];
  return JSON.stringify({
    ...{ format: 'linewright-line', version, exportedAt: '2026-01-05T00:00:00.000Z' },
    ...{ keeper: { id: personId, name: 'Them' }, keepers: [], lineId: id },
    records: {
      ...groups,
      lines,
      [group]: group === 'lines' ? [{ ...lines[0], ...record }] : [record],
    },
  });
};
const ofLocus = (definition: object): string =>
  fileWith('ownLoci', { id: other, keeperId: personId, locusId: 'spot', definition });
const refused = (text: string): string => {
  try {
    readShareFile(text, false);
  } catch (error) {
    expect(error).toMatchObject({ code: 'SHARE_INVALID' });
    return (error as Error).message;
  }
  return 'taken';
};

describe('a locus of the partner’s own', () => {
  it('is taken with all its parts, and with few', () => {
    expect(refused(ofLocus(locus))).toBe('taken');
    expect(refused(ofLocus({ ...locus, ...everyPart }))).toBe('taken');
  });

  it.each(Object.keys({ ...locus, ...everyPart }))(
    'is refused when its %s is of another kind',
    (part) => {
      for (const wrong of [7, 'x'.repeat(6_000), [7], [{ locus: 7 }], { id: 7 }]) {
        // A testable locus is one or not; a name may be any short text.
        const message = refused(ofLocus({ ...locus, ...everyPart, [part]: wrong }));
        expect([part, wrong, message]).not.toContain('taken');
      }
    },
  );

  it('names the place', () => {
    expect(refused(ofLocus({ ...locus, hiddenBy: 7 }))).toMatch(
      /number 1 of "ownLoci": its "definition.hiddenBy" \(7\)/,
    );
    const hiddenBy = [{ locus: 'c', phenotypes: 3, why: '' }];
    expect(refused(ofLocus({ ...locus, hiddenBy }))).toMatch(/definition\.hiddenBy\.0\.phenotypes/);
  });
});

describe('every field of every kind', () => {
  const fields = sharedKinds.flatMap(({ group, fields }) =>
    fields.map(({ name, optional }) => ({ group, name, optional })),
  );

  it.each(fields)('$group.$name is checked', ({ group, name }) => {
    const shape = sharedKinds
      .find((kind) => kind.group === group)!
      .fields.find((field) => field.name === name)!.shape;
    for (const wrong of [{ unexpected: 'x' }, [{}], 'x'.repeat(200_000), 1e300 / 1e-300])
      expect(
        shape.safeParse(wrong).success,
        `${name}: ${JSON.stringify(wrong)?.slice(0, 30)}`,
      ).toBe(false);
  });

  it.each(['name', 'code', 'goal'])('a line with a long %s is refused with its length', (name) => {
    expect(refused(fileWith('lines', { [name]: 'x'.repeat(10_000) }))).toContain(
      '10000 characters',
    );
  });

  it('keeps only what the format knows', () => {
    const file = readShareFile(fileWith('lines', { unexpected: 'x' }), false);
    expect(file.records.lines[0]).not.toHaveProperty('unexpected');
  });
});

describe('older versions', () => {
  it('are read without the groups that came later', () => {
    const file = JSON.parse(fileWith('lines', {}, 1)) as { records: Record<string, unknown> };
    for (const { keys, since } of sharedKinds) if (since > 1) delete file.records[keys.group];
    expect(readShareFile(JSON.stringify(file), false).records.ownLoci).toEqual([]);
    expect(refused(JSON.stringify({ ...file, version: 2 }))).toMatch(/it has no "records\.\w+"/);
  });
});

describe('the names in a file', () => {
  const care = { id: other, spawnId: id, step: 'fed', at: '2026-01-05T00:00:00.000Z' };
  const text = fileWith('careEntries', { ...care, action: 'done' });

  it('are read as those of the program', () => {
    const { sender, people, records } = readShareFile(text, false);
    expect([sender.name, people]).toEqual(['Them', []]);
    expect(records.lines[0]).toMatchObject({ personId });
    expect(records.lines[0]).not.toHaveProperty('keeperId');
    expect(records.careRecords[0]).toMatchObject({ step: 'fed' });
  });

  it('stay those that every version of the format has', () => {
    const written = JSON.parse(shareFileText(readShareFile(text, false))) as Record<string, never>;
    const given = JSON.parse(text) as Record<string, object>;
    expect(written).toMatchObject({ ...given, version: 2 });
    expect(Object.keys(written).sort()).toEqual(
      [...Object.keys(given), ...['installs', 'stamps', 'versions']].sort(),
    );
    expect(Object.keys(written['records']!)).toEqual(Object.keys(given['records']!));
  });
});
