import { describe, expect, it } from 'vitest';
import { conditionRows } from './condition-section.js';

const fish = { ageDays: 100, restDays: 3, spawns: 2, failures: 1, isHere: true, place: null };

describe('both fish now', () => {
  it('is told side by side', () => {
    const place = { meanCoancestry: 0.2, place: 3, of: 20, riseWithout: 0.004 };
    const rows = conditionRows(fish, {
      ...{ ageDays: null, restDays: null, spawns: 0, failures: 0, isHere: false, place },
    });
    expect(rows.map(({ sire, dam }) => [sire, dam])).toEqual([
      ['yes', 'no'],
      ['14 wk', 'not recorded'],
      ['3 days ago', 'none on record'],
      ['2, and 1 failed', '0'],
      [
        'of no line, not in use, or alone in its line',
        'coancestry 20.00 %, place 3 of 20 from the least related',
      ],
      ['of no line, not in use, or alone in its line', 'mean coancestry 0.40 % higher'],
    ]);
  });
});
