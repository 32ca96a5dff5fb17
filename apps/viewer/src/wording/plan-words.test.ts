import { describe, expect, it } from 'vitest';
import {
  broodName,
  lateText,
  monthsText,
  planDoubts,
  problemText,
  reachedText,
  youngText,
} from './plan-words.js';

const steps = [
  { brood: 0, generation: 1, spawn: { tag: 'S-1' } },
  { brood: 1, generation: 1, spawn: null },
  { brood: 2, generation: 2, spawn: null },
];
const nothing = {
  ...{ brood: null, days: null, fish: null, sex: null, allele: null, chance: null },
  ...{ inbreeding: null, plannedInbreeding: null, version: null },
};
const text = (more: Partial<Parameters<typeof problemText>[0]> & { kind: string }): string =>
  problemText({ ...nothing, ...more }, steps);

describe('why a plan is off course, in words', () => {
  it('names the generation, and the brood where there are two', () => {
    expect(broodName(1, steps)).toBe('generation 1, brood 2');
    expect(broodName(2, steps)).toBe('generation 2');
  });

  it('says by which brood the target was reached, and how many of its young pass', () => {
    const counted = { recorded: 12, passed: 11, notPassed: 1, inbreeding: 0.031 };
    const none = { recorded: null, passed: null, notPassed: null, inbreeding: null };
    const reached = reachedText({
      ...{ reachedBy: 0, share: 0.9, ceiling: 0.25 },
      steps: steps.map((step) => ({ ...step, ...(step.brood === 0 ? counted : none) })),
    });
    expect(reached).toBe(
      'The target is reached by S-1 (generation 1, brood 1): Of 12 on record 11 pass, 1 does not. At least 90 % had to; its F of 3.1 % is within 25 %. Young without a record of their own are not counted.',
    );
    expect(youngText({ recorded: 4, passed: 1, notPassed: 2 })).toBe(
      'Of 4 on record 1 passes, 2 do not, of 1 it is not known.',
    );
  });

  it('names the figure, the fish or the spawn', () => {
    expect(text({ kind: 'LATE', brood: 2, days: 41 })).toBe(
      'The pair of generation 2 has not spawned, 41 days after the day planned.',
    );
    expect(text({ kind: 'PARENT_GONE', brood: 2, fish: { tag: 'M-1' } })).toBe(
      'M-1 was to be a parent of generation 2 and is no longer in use here.',
    );
    expect(text({ kind: 'NO_YOUNG', brood: 0, sex: 'FEMALE' })).toBe(
      'All young of S-1 are sorted, and no female of it is in use here.',
    );
    expect(text({ kind: 'ALLELE_NOT_FOUND', brood: 0, allele: 'st', chance: 0.012 })).toBe(
      'No young of S-1 is likely to carry st: the highest chance is 1 %.',
    );
    expect(text({ kind: 'INBREEDING', brood: 0, inbreeding: 0.3, plannedInbreeding: 0.25 })).toBe(
      'F of S-1 is 30.0 %, and 25.0 % was planned.',
    );
    expect(text({ kind: 'PURPOSE_CHANGED', version: 3 })).toContain('newer version (3)');
  });

  it('tells days and months', () => {
    expect([lateText(1), lateText(-12), lateText(0), lateText(null)]).toEqual([
      '1 day later than planned',
      '12 days earlier than planned',
      'on the day planned',
      '',
    ]);
    expect(monthsText('2026-01-01', '2026-06-02')).toBe('5 months');
  });
});

describe('why not to rely on a plan', () => {
  const planned = (...of: (number | null)[]) => ({
    ...{ chance: 0.6, simulations: 2_000, ceiling: 0.3 },
    steps: steps.map((step, k) => ({ ...step, plannedInbreeding: of[k] ?? null })),
  });

  it('is silent about a plan that often gets there under the ceiling', () => {
    expect(planDoubts(planned(0.1, null, 0.3))).toEqual([]);
  });

  it('names the broods above the ceiling, and a target that is seldom reached', () => {
    expect(planDoubts(planned(0.1, 0.34, 0.67))).toEqual([
      'The F that is planned is above the ceiling of 30 %: generation 1, brood 2 (34 %), generation 2 (67 %).',
    ]);
    expect(planDoubts({ ...planned(), chance: 0.02 })[0]).toContain(
      'seldom reached its target: 2 %',
    );
  });
});
