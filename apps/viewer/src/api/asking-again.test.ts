import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { AskingAgain, whileReading } from './asking-again.js';
import type { Problem } from './problem.js';

const problem = (code: string): Problem => ({
  ...{ code, message: 'What the server says.', fields: [], reference: null },
});
const AWAY = problem('DATABASE_AWAY');

describe('a page whose database is away', () => {
  beforeEach(() => {
    vi.useFakeTimers();
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it('asks by itself until the database is back, and no longer', () => {
    const asking = new AskingAgain();
    let questions = 0;
    const ask = (): void => {
      questions += 1;
      asking.told(questions < 5 ? AWAY : null, ask);
    };
    ask();
    expect(questions).toBe(1);
    vi.advanceTimersByTime(1_000 + 2_000 + 4_000 + 8_000);
    expect(questions).toBe(5);
    vi.advanceTimersByTime(600_000);
    expect(questions).toBe(5);
  });

  it('never waits longer than eight seconds, and is quick again the next time', () => {
    const asking = new AskingAgain();
    const waits: number[] = [];
    let told = performance.now();
    const ask = (): void => {
      waits.push(performance.now() - told);
      told = performance.now();
      asking.told(AWAY, ask);
    };
    asking.told(AWAY, ask);
    vi.advanceTimersByTime(40_000);
    expect(waits).toEqual([1_000, 2_000, 4_000, 8_000, 8_000, 8_000, 8_000]);
    asking.told(null, ask);
    waits.length = 0;
    told = performance.now();
    asking.told(AWAY, ask);
    vi.advanceTimersByTime(1_000);
    expect(waits).toEqual([1_000]);
  });

  it('rests when its screen is left, and leaves other problems to a person', () => {
    const asking = new AskingAgain();
    let questions = 0;
    const ask = (): void => void (questions += 1);
    asking.told(AWAY, ask);
    asking.rest();
    asking.told(problem('INTERNAL'), ask);
    asking.told(problem('UNREACHABLE'), ask);
    vi.advanceTimersByTime(60_000);
    expect(questions).toBe(0);
  });

  it('says that it waits and asks, and changes the words of nothing else', () => {
    expect(whileReading(AWAY).message).toContain('asks again by itself');
    expect(whileReading(problem('NOT_FOUND'))).toEqual(problem('NOT_FOUND'));
  });
});
