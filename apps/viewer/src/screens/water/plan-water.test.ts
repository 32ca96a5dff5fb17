import { describe, expect, it } from 'vitest';
import { planWater } from './plan-water.js';

const typed = {
  total: '0,8',
  unit: 'N',
  pH: '7.6',
  celsius: '27',
  sourceTotal: '',
  sourcePH: '',
  sourceCelsius: '',
  rise: '',
};
const limit = { value: 0.02, unit: 'NH3' } as const;

describe('the water calculator', () => {
  it('takes blank new water as clean and like the tank, and a comma for a point', () => {
    const answer = planWater(typed, limit);
    if (typeof answer === 'string') throw new Error(answer);
    expect(answer.found.total).toBeCloseTo(0.8, 12);
    expect(answer.plan.warnings).toEqual(['PH_UNKNOWN']);
    const { times, each, after } = answer.plan.steps!;
    expect((1 - each) ** times).toBeLessThanOrEqual(answer.limit / answer.found.amount);
    expect(after.at(-1)!.unionisedAtMost).toBeLessThanOrEqual(answer.limit);
    expect(answer.settled).toBeNull();
  });

  it('says what is missing or out of range instead of answering', () => {
    expect(planWater({ ...typed, pH: '' }, limit)).toContain('pH');
    expect(planWater({ ...typed, unit: '' }, limit)).toContain('kit');
    expect(planWater({ ...typed, pH: '71' }, limit)).toContain('71');
    expect(planWater({ ...typed, celsius: '78' }, limit)).toContain('25.6 °C');
    expect(planWater({ ...typed, celsius: '-3' }, limit)).toContain('-3');
  });

  it('takes nothing for blank that was typed: a slip is no clean water', () => {
    expect(planWater({ ...typed, sourcePH: '8,,2' }, limit)).toBe(
      '“8,,2” (pH of the new water) is not a number: give one such as 7.5, or leave it blank.',
    );
    expect(planWater({ ...typed, sourceTotal: 'o.5' }, limit)).toContain('o.5');
    expect(planWater({ ...typed, total: '-1' }, limit)).toContain('-1');
  });

  it('tells where it settles with a rise between changes', () => {
    const answer = planWater({ ...typed, rise: '0.2' }, limit);
    if (typeof answer === 'string') throw new Error(answer);
    expect(answer.settled!.before - answer.settled!.after).toBeCloseTo(0.2, 12);
  });
});
