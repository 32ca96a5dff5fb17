import { describe, expect, it } from 'vitest';
import type { Entry, EntryKind, NewEntry, SentEntry } from '../../outbox/entry.js';
import type { Disposition } from '../../wording/words.js';
import type { TakenAlong } from '../../outbox/taken-along.js';
import {
  benchOf,
  classOf,
  fitsAge,
  nextTags,
  type BenchFish,
  type BenchTrait,
} from './bench-facts.js';
import { nextUnsorted } from './card-acts.js';

const trait = (fromAgeDays: number | null, toAgeDays: number | null): BenchTrait => ({
  id: 'spread',
  name: 'Spread',
  kind: 'MEASURED',
  unit: null,
  minimum: null,
  maximum: null,
  fromAgeDays,
  toAgeDays,
  description: null,
  version: 1,
});

const fish = (id: string, disposition: 'UNSORTED' | 'KEEPER', revision: number) => ({
  id,
  tag: `T26-01-${id}`,
  sex: 'UNSEXED' as const,
  hatchDate: null,
  disposition,
  dispositionDate: null,
  dispositionReason: null,
  revision,
  latestScores: [{ id: 'known', value: 150, trait: { id: 'spread' } }],
});

const taken: TakenAlong = {
  at: '2026-11-25T12:00:00Z',
  facts: {
    spawn: {
      id: 'spawn',
      tag: 'T26-01',
      hatchDate: null,
      withdrawn: null,
      fish: [fish('01', 'UNSORTED', 1), fish('02', 'KEEPER', 2)],
      counts: [],
      losses: [],
      classCounts: [],
    },
    traits: [trait(null, null)],
    scoreSheets: [],
    loci: [],
  },
};

let sequence = 0;
type Given = {
  [Kind in EntryKind]: Pick<NewEntry<Kind>, 'kind' | 'input'> &
    Partial<Pick<NewEntry<Kind>, 'subject' | 'before'>>;
}[EntryKind];
const entry = (given: Given): Entry => {
  sequence += 1;
  return {
    spawnId: 'spawn',
    subject: '01',
    label: given.kind,
    ...given,
    id: `entry-${sequence}`,
    keeperId: 'keeper',
    group: `group-${sequence}`,
    sequence,
    madeAt: taken.at,
    attempts: 0,
    state: 'waiting',
  };
};
const sent = (given: Entry, sentAt: string, revisionAfter: number | null): SentEntry => ({
  ...given,
  sentAt,
  revisionAfter,
  undone: false,
});
const LATER = '2026-11-25T12:00:05Z';
const EARLIER = '2026-11-25T11:59:00Z';
const decision = (disposition: Disposition, subject = '01', revision = 1) =>
  entry({
    kind: 'decision',
    subject,
    input: { id: subject, disposition, on: '2026-11-25', reason: null, revision },
    before: {
      sex: 'UNSEXED',
      disposition: 'UNSORTED',
      dispositionDate: null,
      dispositionReason: null,
    },
  });
const shown = (entries: Entry[], sentEntries: SentEntry[] = []) =>
  benchOf(taken, { entries, sent: sentEntries });
const first = (entries: Entry[], sentEntries: SentEntry[] = []) =>
  shown(entries, sentEntries).fish[0];

describe('the bench as shown', () => {
  it('shows what waits, and beside it what the server has', () => {
    const seen = first([decision('KEEPER')]);
    expect([seen?.disposition, seen?.onServer, seen?.waiting]).toEqual(['KEEPER', 'UNSORTED', 1]);
  });

  it('shows what was sent but not yet read back, with the revision it made', () => {
    const seen = first([], [sent(decision('HOLD'), LATER, 2)]);
    expect([seen?.disposition, seen?.revision, seen?.waiting]).toEqual(['HOLD', 2, 0]);
  });

  it('lets the server speak for what was sent before it was read', () => {
    expect(first([], [sent(decision('HOLD'), EARLIER, 2)])?.disposition).toBe('UNSORTED');
  });

  it('tells what a reading shows by what was settled before it, whatever the clock said', () => {
    const held = sent(decision('HOLD'), '2031-01-01T00:00:00Z', 2);
    const read = (settled: string[]) =>
      benchOf({ ...taken, settled }, { entries: [], sent: [held] }).fish[0]?.disposition;
    expect([read([]), read([held.id])]).toEqual(['HOLD', 'UNSORTED']);
  });

  it('puts the fish in the order people count', () => {
    const facts = {
      ...taken.facts,
      spawn: {
        ...taken.facts.spawn,
        fish: ['100', '99', '02'].map((id) => fish(id, 'UNSORTED', 1)),
      },
    };
    const bench = benchOf({ ...taken, facts }, { entries: [], sent: [] });
    expect(bench.fish.map((each) => each.id)).toEqual(['02', '99', '100']);
  });

  it('goes on with the next unsorted fish, from the beginning when none is left after', () => {
    const marks = (...sorted: string[]) =>
      sorted.map((each) => ({ disposition: each === '-' ? 'UNSORTED' : 'KEEPER' })) as BenchFish[];
    expect(nextUnsorted(marks('k', 'k', 'k', '-'), 1)).toBe(3);
    expect(nextUnsorted(marks('-', 'k', '-', 'k'), 2)).toBe(0);
    expect(nextUnsorted(marks('k', 'k', '-'), 2)).toBe(2);
    expect(nextUnsorted(marks('k', 'k', 'k'), 0)).toBe(1);
  });

  it('shows the server’s version while an entry is in conflict', () => {
    const seen = first([{ ...decision('CULLED'), state: 'conflict' }]);
    expect([seen?.disposition, seen?.stopped.length]).toEqual(['UNSORTED', 1]);
  });

  it('takes back what an undoing speaks of, waiting or read long ago', () => {
    const waiting = decision('CULLED');
    const undo = (id: string, subject: string) =>
      entry({ kind: 'undo', subject, input: { undoes: id } });
    expect(first([waiting, undo(waiting.id, '01')])?.disposition).toBe('UNSORTED');
    const old = sent(decision('KEEPER', '02'), EARLIER, 2);
    expect(shown([undo(old.id, '02')], [old]).fish[1]?.disposition).toBe('UNSORTED');
  });

  it('shows the values of a look on a sheet, and takes them back', () => {
    const look = entry({
      kind: 'sheet_look',
      input: {
        ...{ id: 'look', fishId: '01', sheetId: 'sheet', sheetVersion: 1, scoredOn: '2026-11-25' },
        scores: [{ id: 'new', traitId: 'spread', value: 165 }],
        faultIds: [],
      },
    });
    expect(first([look])?.scores.get('spread')?.value).toBe(165);
    const undo = entry({ kind: 'undo', input: { undoes: look.id } });
    expect(first([look, undo])?.scores.get('spread')?.value).toBe(150);
    // Read back with the facts before the undoing was sent.
    const read = { ...taken.facts.spawn.fish[0]!, latestScores: [] };
    const withIt = {
      ...read,
      latestScores: [{ id: 'new', value: 165, trait: { id: 'spread' } }],
    };
    const facts = { ...taken.facts, spawn: { ...taken.facts.spawn, fish: [withIt] } };
    const bench = benchOf(
      { ...taken, facts },
      { entries: [undo], sent: [sent(look, EARLIER, null)] },
    );
    expect(bench.fish[0]?.scores.has('spread')).toBe(false);
  });

  it('opens what was taken along before there were sheets', () => {
    const facts: Partial<typeof taken.facts> = { ...taken.facts };
    delete facts.scoreSheets;
    expect(
      benchOf({ ...taken, facts: facts as typeof taken.facts }, { entries: [], sent: [] }).sheets,
    ).toEqual([]);
  });

  it('shows new scores, new fish, fry culled and classes counted', () => {
    const bench = shown([
      entry({
        kind: 'scores',
        input: {
          ...{ fishId: '01', scoredOn: '2026-11-25' },
          scores: [{ id: 'new', traitId: 'spread', value: 170 }],
        },
      }),
      entry({
        kind: 'new_fish',
        subject: 'f3',
        input: { id: 'f3', tag: 'T26-01-03', sex: 'MALE', hatchDate: null },
      }),
      entry({
        kind: 'loss',
        subject: 'spawn',
        input: {
          ...{ id: 'l1', spawnId: 'spawn', on: '2026-11-25' },
          ...{ kind: 'CULLED', number: 20, reason: 'bent spine' },
        },
      }),
      entry({
        kind: 'class_count',
        subject: 'spawn',
        input: {
          ...{ id: 'c1', spawnId: 'spawn', countedOn: '2026-11-25' },
          ...{ locusIds: ['dt'], phenotype: 'split', number: 1, note: 'T26-01-01' },
        },
      }),
    ]);
    const [one, , three] = bench.fish;
    expect(one?.scores.get('spread')?.value).toBe(170);
    expect([three?.tag, three?.sex, three?.revision]).toEqual(['T26-01-03', 'MALE', 1]);
    expect(bench.culledFry).toBe(20);
    expect(bench.reasons[0]).toBe('bent spine');
    expect(one === undefined ? null : classOf(bench, one, 'dt')?.phenotype).toBe('split');
    expect(nextTags(bench, 2)).toEqual(['T26-01-04', 'T26-01-05']);
  });
});

describe('the age window of a trait', () => {
  it.each([
    [null, null, 10, true],
    [30, null, 29, false],
    [30, null, 30, true],
    [null, 60, 61, false],
    [30, 60, 45, true],
    [30, 60, null, true],
  ])('from %s to %s at %s days: %s', (from, to, age, fits) => {
    expect(fitsAge(trait(from, to), age)).toBe(fits);
  });
});
