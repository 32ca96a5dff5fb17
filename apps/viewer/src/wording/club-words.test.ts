import { describe, expect, it } from 'vitest';
import { pooledFrom, withInterval } from './club-words.js';

describe('words of pooled figures', () => {
  it('say how many keepers and lines are in one', () => {
    expect(pooledFrom({ keepers: 3, lines: 1 }, 18, 'broods')).toBe('3 keepers, 1 line, 18 broods');
    expect(pooledFrom({ keepers: null, lines: null }, null, 'broods')).toBe('');
  });

  it('name the ends of an interval, or that there is none', () => {
    expect(withInterval(0.42, 0.2, 0.66)).toBe('0.42 (0.2 to 0.66)');
    expect(withInterval(1.9, null, null)).toBe('1.9 (no lower end to no upper end)');
  });
});
