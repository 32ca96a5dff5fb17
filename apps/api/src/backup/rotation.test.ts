import { describe, expect, it } from 'vitest';
import { backupName, isBackupName, outdated } from './rotation.js';

const DAY = 24 * 60 * 60 * 1000;
const daily = (back: number, time = '08:15:00'): string =>
  backupName(new Date(Date.UTC(2026, 2, 29) - back * DAY).toISOString().slice(0, 10), time, true);

describe('outdated', () => {
  it('keeps the last seven days and the newest of each of four weeks', () => {
    const names = Array.from({ length: 60 }, (_, back) => daily(back));
    const gone = outdated(names);
    // 29 March 2026 is a Sunday: its week is among the seven days, the three weeks before end on the 22nd, 15th and 8th.
    expect(names.filter((name) => !gone.includes(name))).toEqual(
      [0, 1, 2, 3, 4, 5, 6, 7, 14, 21].map((back) => daily(back)),
    );
  });

  it('counts days that have a backup, so that a long pause costs none', () => {
    const names = [300, 200, 100, 5].map((back) => daily(back));
    expect(outdated(names)).toEqual([]);
  });

  it('keeps the newest of one day, and everything that it did not make itself', () => {
    const asked = backupName('2020-01-01', '10:00:00', false);
    const names = [daily(0, '06:00:00'), daily(0, '22:00:00'), asked, 'notes.txt'];
    expect(outdated(names)).toEqual([daily(0, '06:00:00')]);
    expect(names.map(isBackupName)).toEqual([true, true, true, false]);
  });
});
