import { describe, expect, it } from 'vitest';
import { DAY, HOUR } from '../time-units.js';
import { defaultTemplate } from './default-template.js';
import type { CareRecord } from './plan-shapes.js';
import {
  daysAsRecords,
  impossibleIntervals,
  impossibleIntervalText,
  possibleIntervals,
} from './possible-intervals.js';
import { figureHours, publishedFigures } from './published-figures.js';
import { earliestOf, latestOf } from './template.js';

const spawning = Date.parse('2026-03-01T20:00:00Z');
const record = (step: string, hours: number): CareRecord => ({
  id: step,
  step,
  at: spawning + hours * HOUR,
});
const found = (...records: CareRecord[]) =>
  impossibleIntervals(records).map(({ bound }) => `${bound.from} > ${bound.to}`);

describe('intervals no brood goes through', () => {
  it('finds a hatch and swimming fry in the minute of spawning, and says what to do', () => {
    const at = [record('spawned', 0), record('hatched', 1 / 60), record('free_swimming', 1 / 60)];
    expect(found(...at)).toEqual([
      'spawned > hatched',
      'spawned > free_swimming',
      'hatched > free_swimming',
    ]);
    expect(impossibleIntervals(at).map(impossibleIntervalText)[0]).toBe(
      '“hatched” stands 1 min after “spawned”, and it takes at least 18 h: give the time it happened, or correct the time of “spawned” first.',
    );
  });

  it('finds what stands the wrong way round or weeks too late', () => {
    const [back] = impossibleIntervals([record('spawned', 0), record('hatched', -5)]);
    expect(back && impossibleIntervalText(back)).toContain('stands 5 h before “spawned”');
    const [late] = impossibleIntervals([record('spawned', 0), record('hatched', 30 * 24)]);
    expect(late && impossibleIntervalText(late)).toContain(
      '30 d after “spawned”, and it comes within 7 d',
    );
  });

  it('takes whatever the calendar and the published figures hold for usual', () => {
    for (const { from, to, leastHours, mostHours } of possibleIntervals) {
      const usual = [
        ...publishedFigures.filter((f) => f.after === from && f.step === to).map(figureHours),
        ...defaultTemplate.steps
          .filter((step) => step.id === to)
          .flatMap((step) => step.after.filter((timing) => timing.after === from))
          .map((timing) => ({ from: earliestOf(timing), to: latestOf(timing) })),
      ];
      for (const each of usual) {
        expect(each.from).toBeGreaterThan(leastHours);
        expect(each.to).toBeLessThan(mostHours ?? Infinity);
      }
    }
  });

  it('counts the first of several records, and nothing that was skipped', () => {
    expect(found(record('spawned', 0), record('hatched', 30), record('hatched', 900))).toEqual([]);
    expect(found(record('spawned', 0), { ...record('hatched', 1), action: 'skipped' })).toEqual([]);
  });

  it('gives days the benefit of their hours', () => {
    const days = (spawnedOn: string, hatchDate: string) =>
      found(...daysAsRecords({ spawnedOn, hatchDate }));
    expect(days('2026-03-01', '2026-03-01')).toEqual([]);
    expect(days('2026-03-01', '2026-03-09')).toEqual([]);
    expect(days('2026-03-01', '2026-03-10')).toEqual(['spawned > hatched']);
    expect(daysAsRecords({ spawnedOn: null, hatchDate: null })).toEqual([]);
  });

  it('lets young be jarred as late as one likes, but not as larvae', () => {
    expect(found(record('hatched', 0), record('jarred', (300 * DAY) / HOUR))).toEqual([]);
    expect(found(record('hatched', 0), record('jarred', 24))).toEqual(['hatched > jarred']);
  });
});
