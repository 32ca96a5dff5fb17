import { describe, expect, it } from 'vitest';
import type { PairingCandidate } from './candidate.js';
import { readinessWarnings } from './fish-readiness.js';
import { planningEffect } from './fish-standing.js';
import { DEFAULT_SETTINGS } from './settings.js';

const asOf = '2026-11-25';
const fish = (more: Partial<PairingCandidate>): PairingCandidate => ({
  id: 'a',
  tag: 'T-01',
  sex: 'female',
  ...more,
});
const codes = (one: PairingCandidate, role: 'sire' | 'dam' = 'dam'): string[] =>
  readinessWarnings(one, role, asOf, DEFAULT_SETTINGS).map(
    ({ code, severity }) => `${code} ${severity}`,
  );

describe('age', () => {
  it.each([
    ['2026-09-03', ['TOO_YOUNG stop']], // 83 days
    ['2026-09-02', ['YOUNG caution']], // 84
    ['2026-07-09', ['YOUNG caution']], // 139
    ['2026-07-08', []], // 140
    ['2025-11-25', []], // 365
    ['2025-11-24', ['PAST_BEST_AGE note']], // 366
    ['2025-05-26', ['PAST_BEST_AGE note']], // 548
    ['2025-05-25', ['OLD caution']], // 549
  ])('hatched %s gives %j', (hatchedOn, expected) => {
    expect(codes(fish({ hatchedOn }))).toEqual(expected);
  });

  it('says from when a fish is old enough', () => {
    const [warning] = readinessWarnings(
      fish({ hatchedOn: '2026-10-01' }),
      'dam',
      asOf,
      DEFAULT_SETTINGS,
    );
    expect(warning).toMatchObject({
      code: 'TOO_YOUNG',
      passesOn: '2026-12-24',
      concerns: 'dam',
      figures: { ageDays: 55 },
    });
    expect(warning?.text).toBe(
      'T-01 is 7 weeks old; fish are just capable of spawning from 12 weeks.',
    );
  });

  it('says whether a limit is the built-in one or was set for the line', () => {
    const young = fish({ hatchedOn: '2026-09-20', lastSpawnedOn: '2026-11-20' });
    const basis = (settings: typeof DEFAULT_SETTINGS) =>
      readinessWarnings(young, 'dam', asOf, settings).map((one) => one.basis);
    expect(basis(DEFAULT_SETTINGS)).toEqual(
      Array.from({ length: 2 }, () => 'common practice, no source'),
    );
    const ages = { ...DEFAULT_SETTINGS.ages, capableFrom: 70 };
    const rest = { ...DEFAULT_SETTINGS.rest, female: { least: 10, preferred: 21 } };
    expect(basis({ ...DEFAULT_SETTINGS, ages: { ...ages, preferredFrom: 100 }, rest })).toEqual([
      'set in what the line is for',
      'set in what the line is for',
    ]);
  });

  it('notes an unknown hatch date', () => {
    expect(codes(fish({}))).toEqual(['AGE_UNKNOWN note']);
  });
});

describe('rest', () => {
  const rested = (lastSpawnedOn: string): PairingCandidate =>
    fish({ hatchedOn: '2026-05-01', lastSpawnedOn });

  it.each([
    ['2026-11-12', ['RESTING stop']], // 13 days
    ['2026-11-11', ['SHORT_REST caution']], // 14
    ['2026-11-05', ['SHORT_REST caution']], // 20
    ['2026-11-04', []], // 21
  ])('a female that spawned on %s', (date, expected) => {
    expect(codes(rested(date))).toEqual(expected);
  });

  it.each([
    ['2026-11-19', ['RESTING stop']], // 6 days
    ['2026-11-18', ['SHORT_REST caution']], // 7
    ['2026-11-11', []], // 14
  ])('a male that spawned on %s', (date, expected) => {
    expect(codes(rested(date), 'sire')).toEqual(expected);
  });

  it('says when the rest is over', () => {
    const [warning] = readinessWarnings(rested('2026-11-20'), 'dam', asOf, DEFAULT_SETTINGS);
    expect(warning).toMatchObject({
      code: 'RESTING',
      passesOn: '2026-12-04',
      figures: { days: 5, limitDays: 14 },
    });
  });
});

describe('where it is', () => {
  const at = (standing: Partial<NonNullable<PairingCandidate['standing']>>) =>
    readinessWarnings(
      fish({ hatchedOn: '2026-05-01', standing: { state: 'alive', ...standing } }),
      'dam',
      asOf,
      DEFAULT_SETTINGS,
    );

  it('tells a lent fish from one that is with somebody for good', () => {
    const [lent] = at({ swimsWith: 'Runa', lentUntil: '2027-01-10' });
    expect(lent?.text).toBe(
      'T-01 is on loan with Runa until 2027-01-10, not here: ask them before you plan with it.',
    );
    expect(lent?.figures).toEqual({ fish: 'T-01', swimsWith: 'Runa', lentUntil: '2027-01-10' });
    const [away] = at({ swimsWith: 'Runa' });
    expect(away?.text).toBe('T-01 swims with Runa, not here: ask them before you plan with it.');
  });

  it('keeps a fish in quarantine out until the day after its last one', () => {
    const [apart] = at({ quarantineUntil: asOf });
    expect(apart).toMatchObject({
      ...{ code: 'IN_QUARANTINE', severity: 'stop', passesOn: '2026-11-26' },
      figures: { fish: 'T-01', until: asOf },
    });
    expect(planningEffect(apart!)).toBe('confirm');
    expect(at({ quarantineUntil: '2026-11-24' })).toEqual([]);
  });
});
