import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { handOversOf } from './hand-over-rule.js';
import { kindOfGroup } from './share-fields.js';
import type { SharePlanItem } from './share-plan.js';
import type { SharedRecord } from './share-record.js';

const kind = kindOfGroup('handOvers');
const [giver, receiver, third] = ['giver', 'receiver', 'third'];
const ID = '11111111-1111-4111-8111-111111111111';
const NAMES = kind.fields.map(({ name }) => name);

/** Written by the one of the two and by nobody else; told here once more, apart from the rule. */
const RECEIVERS = [
  ...['answer', 'answeredOn', 'answerWord', 'quarantineUntil', 'newTag'],
  ...['returnAs', 'returnSaidOn', 'returnWord'],
];
const ENDED = ['endedAs', 'endedOn'];

const before = (more: object): SharedRecord => ({
  ...{ id: ID, fromId: giver, toId: receiver, kind: 'gift', movedOn: null, endedAs: null },
  ...more,
});

const item = (
  local: SharedRecord | null,
  changed: readonly string[],
  says: object,
): SharePlanItem => ({
  ...{ kind, local, record: { ...before({}), ...local, ...says }, said: before(says) },
  ...{ outcome: local === null ? 'added' : 'updated', met: null, apart: [] },
  changes: changed.map((field) => ({ field, before: null, after: 'x' })),
  ...{ differences: [], clashesWith: null, leftOutWith: null },
});

const isTaken = (sender: string | null, one: SharePlanItem, known: string[] = []): boolean =>
  handOversOf({ sender, known: new Set(known) }, () => null)(one) === null;

const history = fc.record({
  sender: fc.constantFrom(giver!, receiver!, third!, null),
  changed: fc.subarray(NAMES, { minLength: 1, maxLength: 4 }),
  kind: fc.constantFrom('gift', 'sale', 'loan'),
  movedOn: fc.constantFrom(null, '2026-03-12'),
  endedAs: fc.constantFrom('came_back', 'died', 'kept', 'handed_on'),
});

describe('a hand-over that a file tells', () => {
  it('is changed by the two people of it alone, each by what is theirs to say', () => {
    let [taken, left] = [0, 0];
    fc.assert(
      fc.property(history, ({ sender, changed, endedAs, ...of }) => {
        const wentOn = of.movedOn !== null && of.kind !== 'loan' && endedAs === 'handed_on';
        const theirs: Record<string, (field: string) => boolean> = {
          giver: (field) => !RECEIVERS.includes(field),
          receiver: (field) => RECEIVERS.includes(field) || (wentOn && ENDED.includes(field)),
        };
        const may = sender === null ? undefined : theirs[sender];
        const expected = may !== undefined && changed.every(may);
        const says = changed.includes('endedAs') ? { endedAs } : { endedAs: null };
        const told = changed.includes('endedAs') || !changed.includes('endedOn');
        fc.pre(told);
        expect(isTaken(sender, item(before(of), changed, says))).toBe(expected);
        if (expected) taken++;
        else left++;
      }),
      { seed: 20261127, numRuns: 3_000 },
    );
    expect(Math.min(taken, left)).toBeGreaterThan(200);
  });

  it('is new from whoever gives alone', () => {
    for (const sender of [receiver!, third!, null])
      expect(isTaken(sender, item(null, [], {}))).toBe(false);
    expect(isTaken(giver!, item(null, [], {}))).toBe(true);
  });

  it('is new as an offer alone where the receiver’s key is known: nobody else answers for them', () => {
    const follows = ['movedOn', 'turn', ...ENDED];
    for (const field of [...RECEIVERS, ...follows]) {
      const answered = item(null, [], { [field]: 'x' });
      expect([field, isTaken(giver!, answered, [receiver!])]).toEqual([field, false]);
      expect([field, isTaken(giver!, answered, [third!])]).toEqual([field, true]);
    }
    expect(isTaken(giver!, item(null, [], { word: 'x' }), [receiver!])).toBe(true);
  });
});
