import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { sharedKinds } from './share-fields.js';
import { canonicalRecord, contentHash, readShareFile } from './share-file.js';
import type { SharedRecord } from './share-record.js';
import { outcomeOf } from './share-plan.js';

const line = sharedKinds[0]!;
const id = '11111111-1111-4111-8111-111111111111';
const personId = '22222222-2222-4222-8222-222222222222';
const record = (name: string, more: object = {}): SharedRecord =>
  canonicalRecord(line, { id, personId, code: 'R', name, ...more });
const hash = (name: string): string => contentHash(line, record(name));
const day = (n: number): Date => new Date(Date.UTC(2026, 0, n));

const outcome = (
  local: string | null,
  agreed: string | null,
  incoming: string,
  theirAgreed?: string,
  sent = 5,
) =>
  outcomeOf(
    line,
    local === null ? null : record(local),
    agreed === null ? undefined : { hash: hash(agreed), at: day(3) },
    {
      record: record(incoming),
      agreedHash: theirAgreed === undefined ? undefined : hash(theirAgreed),
      sentAt: day(sent),
    },
  );

describe('what becomes of a record', () => {
  it.each([
    ['unknown here', null, null, 'a', undefined, 'added'],
    ['the same', 'a', null, 'a', undefined, 'unchanged'],
    ['changed there', 'a', 'a', 'b', 'a', 'updated'],
    ['changed here', 'b', 'a', 'a', 'a', 'kept_local'],
    ['changed on both sides', 'b', 'a', 'c', 'a', 'conflict'],
    ['never agreed on', 'a', null, 'b', undefined, 'conflict'],
    ['made from what stands here', 'b', 'a', 'c', 'b', 'updated'],
    ['changed there twice, we took in the first', 'b', 'b', 'c', 'a', 'updated'],
  ] as const)('%s', (_, local, agreed, incoming, theirs, expected) => {
    expect(outcome(local, agreed, incoming, theirs)).toBe(expected);
  });

  it('does not turn a record back when an older file is read again', () => {
    expect(outcome('b', 'b', 'a', 'a', 1)).toBe('kept_local');
  });

  it('never changes the person', () => {
    const moved = record('a', { personId: id });
    const result = outcomeOf(
      line,
      record('a'),
      { hash: hash('a'), at: day(3) },
      { record: moved, agreedHash: hash('a'), sentAt: day(5) },
    );
    expect(result).toBe('conflict');
  });
});

describe('fingerprints', () => {
  it('depend on shared content alone', () => {
    expect(contentHash(line, record('a', { revision: 7, updatedAt: 'x' }))).toBe(hash('a'));
    expect(hash('a')).not.toBe(hash('b'));
    expect(contentHash(line, record('a', { goal: 'red' }))).not.toBe(hash('a'));
  });

  it('are those that earlier versions agreed on', () => {
    const sum = (text: string): string => createHash('sha256').update(text).digest('hex');
    expect(hash('a')).toBe(
      sum(`["line","${id}",[["code","R"],["keeperId","${personId}"],["name","a"]]]`),
    );
    const care = sharedKinds.find(({ group }) => group === 'careRecords')!;
    const fed = canonicalRecord(care, {
      ...{ id, spawnId: personId, step: 'fed', at: '2026-01-05T00:00:00.000Z', action: 'done' },
    });
    expect(contentHash(care, fed)).toBe(
      sum(
        `["care_entry","${id}",[["action","done"],["at","2026-01-05T00:00:00.000Z"],["spawnId","${personId}"],["step","fed"]]]`,
      ),
    );
  });
});

describe('reading a line file', () => {
  const groups = Object.fromEntries(sharedKinds.map(({ keys }) => [keys.group, [] as unknown[]]));
  const good = {
    format: 'linewright-line',
    version: 1,
    exportedAt: '2026-01-05T00:00:00.000Z',
    keeper: { id: personId, name: 'Them' },
    keepers: [],
    lineId: id,
    records: { ...groups, lines: [{ id, keeperId: personId, code: 'R', name: 'Red' }] },
  };

  it('takes a whole file', () => {
    expect(readShareFile(JSON.stringify(good), false).records.lines).toHaveLength(1);
  });

  it.each([
    ['no JSON', '{'],
    ['another format', JSON.stringify({ ...good, format: 'x' })],
    ['a later version', JSON.stringify({ ...good, version: 4 })],
    ['no line', JSON.stringify({ ...good, lineId: personId })],
    ['a group missing', JSON.stringify({ ...good, records: { lines: good.records.lines } })],
    [
      'a record without its name',
      JSON.stringify({
        ...good,
        records: { ...groups, lines: [{ id, keeperId: personId, code: 'R' }] },
      }),
    ],
    [
      'an id twice',
      JSON.stringify({
        ...good,
        records: { ...good.records, lines: [...good.records.lines, ...good.records.lines] },
      }),
    ],
    [
      'a sex that is none',
      JSON.stringify({
        ...good,
        records: {
          ...good.records,
          fish: [{ id: personId, keeperId: personId, tag: 'A', sex: 'boy', disposition: 'keeper' }],
        },
      }),
    ],
  ])('refuses %s', (_, text) => {
    expect(() => readShareFile(text, false)).toThrow(
      expect.objectContaining({ code: 'SHARE_INVALID' }),
    );
  });
});
