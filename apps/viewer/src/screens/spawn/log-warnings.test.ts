import { describe, expect, it } from 'vitest';
import type { LogRecord } from '../../api/care.js';
import { logWarnings } from './log-warnings.js';

const record = (step: string, at: string, more: Partial<LogRecord> = {}): LogRecord => ({
  id: `${step} ${at}`,
  step,
  title: step.replace('_', '-'),
  at,
  action: 'DONE',
  note: null,
  revision: 1,
  dayOnly: false,
  editable: true,
  ...more,
});
const spawned = record('spawned', '2026-03-10T12:00:00Z');
const hatched = record('hatched', '2026-03-12T12:00:00Z');
const none = { spawnedOn: null, hatchDate: null };

describe('warnings of a log', () => {
  it('has none for a log in order, nor where a day and its event differ by one', () => {
    const days = { spawnedOn: '2026-03-09', hatchDate: '2026-03-13' };
    expect(logWarnings(days, [spawned, hatched])).toEqual([]);
  });

  it('names both events and the remedy when fry swim before they hatch', () => {
    const [warning, ...more] = logWarnings(none, [
      spawned,
      record('free_swimming', '2026-03-11T12:00:00Z'),
      hatched,
    ]);
    expect(warning).toMatch(
      /^“free-swimming” \(Wed 2026-03-11.*\) is dated before “hatched” \(Thu 2026-03-12.*\): correct/,
    );
    expect(more).toEqual([]);
  });

  it('lets a day without an hour be off by the hours of a day, and no more', () => {
    const dayOnly = (at: string) => record('hatched', at, { dayOnly: true, editable: false });
    const swim = record('free_swimming', '2026-03-12T00:30:00Z');
    expect(logWarnings(none, [dayOnly('2026-03-12T12:00:00Z'), swim])).toEqual([]);
    expect(logWarnings(none, [dayOnly('2026-03-14T12:00:00Z'), swim])).toHaveLength(1);
  });

  it('says of records that came in so when a brood cannot have gone as they say', () => {
    const swim = record('free_swimming', '2026-03-12T12:30:00Z');
    expect(logWarnings(none, [spawned, hatched, swim])).toEqual([
      expect.stringMatching(
        /^“free-swimming” stands 30 min after “hatched”, and it takes at least 12 h/,
      ),
    ]);
  });

  it('says when a corrected day and its event tell of two days', () => {
    expect(logWarnings({ spawnedOn: '2026-03-05', hatchDate: null }, [spawned])).toEqual([
      'Spawned on 2026-03-05 as on the spawn, but on 2026-03-10 in the log: the calendar follows the log. Correct one of the two.',
    ]);
  });
});
