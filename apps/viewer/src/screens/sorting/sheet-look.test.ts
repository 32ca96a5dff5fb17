import { describe, expect, it } from 'vitest';
import type { FaultSeverity, SheetLine } from '../../api/score-sheets.js';
import type { Bench, BenchFish, BenchSheet } from './bench-facts.js';
import { stepsOf } from './score-sheet.js';
import {
  chosenSheet,
  faultsByClass,
  leftOnOtherSheet,
  lookEntry,
  NO_SHEET,
  scoredOn,
} from './sheet-look.js';

const line = (id: string, noneAt: number, fullAt: number, weight: number | null): SheetLine => ({
  weight,
  noneAt,
  fullAt,
  traitVersion: 1,
  trait: {
    id,
    key: id,
    name: id,
    kind: 'MEASURED',
    unit: null,
    minimum: 0,
    maximum: 240,
    higherIsBetter: true,
    description: null,
    version: 1,
    grades: [],
  },
});
const fault = (id: string, severity: FaultSeverity, points: number | null) => ({
  id,
  name: id,
  severity,
  points,
});
const sheet = (id: string, fromAgeDays: number | null, toAgeDays: number | null): BenchSheet => ({
  id,
  name: `Sheet ${id}`,
  version: 3,
  current: {
    version: 3,
    madeAt: '2026-11-01T00:00:00Z',
    fromAgeDays,
    toAgeDays,
    lines: [line('spread', 120, 180, 3), line('balance', 0, 5, 1)],
    faults: [
      fault('blind', 'DISQUALIFYING', null),
      fault('torn fin', 'SLIGHT', 2),
      fault('gap', 'MAJOR', 10),
      fault('shyness', 'SLIGHT', 2),
    ],
    deductions: [],
  },
});
const young = sheet('young', 30, 60);
const grown = sheet('grown', 100, null);
const any = sheet('any', null, null);
const fish = { id: 'fish', tag: 'T26-01-01' } as BenchFish;
const bench = { id: 'spawn' } as Bench;

describe('the sheet at the bench', () => {
  it('is the first made for the age, unless another or none is asked for', () => {
    const sheets = [any, young, grown];
    const chosen = (asked: string | null, age: number | null) =>
      chosenSheet(sheets, asked, age)?.id ?? null;
    expect([30, 60, 100, 61, 29].map((age) => chosen(null, age))).toEqual([
      'young',
      'young',
      'grown',
      null,
      null,
    ]);
    expect([chosen('any', 45), chosen(NO_SHEET, 45), chosen(null, null)]).toEqual([
      'any',
      null,
      null,
    ]);
    // Withdrawn since the address was made.
    expect(chosen('gone', 45)).toBe('young');
  });

  it('shows its faults by class, the slight first', () => {
    expect(faultsByClass(young).map((each) => [each.severity, each.faults.length])).toEqual([
      ['SLIGHT', 2],
      ['MAJOR', 1],
      ['DISQUALIFYING', 1],
    ]);
  });
});

describe('what was scored', () => {
  const values = new Map([
    ['spread', 165],
    ['length', 40],
  ]);

  it('is parted into the look and what the sheet does not ask for', () => {
    const { look, plain } = scoredOn(young, values, new Set(['gap', 'of another sheet']), '  ');
    expect([...(look?.values ?? [])]).toEqual([['spread', 165]]);
    expect([look?.faultIds, look?.note]).toEqual([['gap'], null]);
    expect([...plain]).toEqual([['length', 40]]);
  });

  it('is no look without a score or a fault, nor without a sheet', () => {
    expect(scoredOn(young, new Map(), new Set(), 'a note').look).toBeNull();
    expect(scoredOn(null, values, new Set(['gap']), '')).toEqual({ look: null, plain: values });
    expect(scoredOn(young, new Map(), new Set(['gap']), '').look).not.toBeNull();
  });

  it('leaves nothing behind on a sheet that is no longer chosen', () => {
    const other = { ...grown, current: { ...grown.current, faults: [fault('bent', 'MAJOR', 10)] } };
    const left = (chosen: BenchSheet | null, seen: string[], note: string) =>
      leftOnOtherSheet([young, other], chosen, new Set(seen), note);
    expect(left(young, ['gap'], 'left side')).toBeNull();
    expect(left(other, ['gap', 'bent'], '')).toMatch(
      /“Sheet young”: gap\. Choose that sheet again/,
    );
    expect(left(null, ['gap'], '')).toMatch(/“Sheet young”: gap\./);
    expect(left(null, [], ' left side ')).toMatch(/^The note “left side”/);
    expect(left(null, [], '  ')).toBeNull();
    expect(leftOnOtherSheet([], null, new Set(), 'left side')).toBeNull();
  });

  it('makes one entry, with its total in words', () => {
    const scored = new Map([
      ['spread', 165],
      ['balance', 5],
    ]);
    const { look } = scoredOn(young, scored, new Set(['gap']), ' left side ');
    if (look === null) throw new Error('No look.');
    const entry = lookEntry(bench, fish, '2026-11-25', look);
    // (3 x 0.75 + 1) / 4 of 100, less 10.
    expect(entry.label).toBe('T26-01-01: Sheet young, 71.3 of 100, gap');
    expect([entry.kind, entry.subject]).toEqual(['sheet_look', 'fish']);
    expect(entry.input).toMatchObject({
      fishId: 'fish',
      sheetId: 'young',
      sheetVersion: 3,
      scoredOn: '2026-11-25',
      note: 'left side',
      scores: [
        { traitId: 'spread', value: 165 },
        { traitId: 'balance', value: 5 },
      ],
      faultIds: ['gap'],
    });
  });

  it('says when a fault disqualifies the fish, even with no total', () => {
    const { look } = scoredOn(young, new Map(), new Set(['blind']), '');
    if (look === null) throw new Error('No look.');
    expect(lookEntry(bench, fish, '2026-11-25', look).label).toBe(
      'T26-01-01: Sheet young, blind, disqualified',
    );
  });
});

it('names a grade on the step where it begins', () => {
  const trait = { id: 'b', name: 'b', kind: 'ORDINAL' as const, unit: null };
  const grades = [
    { from: 1, name: 'poor' },
    { from: 3, name: 'sound' },
  ];
  expect(stepsOf({ ...trait, minimum: 1, maximum: 3, grades })?.map((step) => step.label)).toEqual([
    '1 poor',
    '2',
    '3 sound',
  ]);
});
