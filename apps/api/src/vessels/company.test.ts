import { describe, expect, it } from 'vitest';
import { expectFits } from './company.js';

const fish = (...sexes: ('male' | 'female' | 'unsexed')[]) =>
  sexes.map((sex, k) => ({ tag: `T-${k + 1}`, sex }));

describe('fish together in a vessel', () => {
  it('are a group of females when all are females', () => {
    expect(() => expectFits('sorority', fish('female', 'female', 'female'), 0)).not.toThrow();
    expect(() => expectFits('sorority', fish('female', 'male'), 0)).toThrow('T-2 is a male');
    expect(() => expectFits('sorority', fish('female', 'unsexed'), 0)).toThrow('not known to be');
  });

  it('are a pair when they are one male and one female', () => {
    expect(() => expectFits('pair', fish('male', 'female'), 1)).not.toThrow();
    expect(() => expectFits('pair', fish('male', 'male'), 0)).toThrow('one male and one female');
    expect(() => expectFits('pair', fish('male', 'female', 'female'), 0)).toThrow('one male');
  });

  it('grow up together as long as they are not males alone', () => {
    expect(() => expectFits('grow_out', fish('unsexed', 'unsexed', 'male'), 0)).not.toThrow();
    expect(() => expectFits('grow_out', fish('male'), 1)).not.toThrow();
    expect(() => expectFits('grow_out', fish('male', 'male'), 0)).toThrow('fight');
  });
});
