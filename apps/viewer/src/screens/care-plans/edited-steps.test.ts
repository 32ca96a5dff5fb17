import { describe, expect, it } from 'vitest';
import { changedStep, newStep, typedStep, withStep } from './edited-steps.js';

const step = {
  ...newStep([]),
  title: 'Feed',
  until: ['jarred', 'failed'],
  after: [{ after: 'hatched', afterTitle: 'Hatched', hours: 48, earliest: 36, latest: 60 }],
};
const values = {
  title: 'Feed',
  kind: step.kind,
  after: [
    { after: 'hatched', hours: 48, earliest: null, latest: null },
    { after: '', hours: null, earliest: null, latest: null },
  ],
  everyHours: null,
  until: 'jarred',
  lapseHours: null,
  why: null,
  caution: null,
};
const anchors = [{ value: 'hatched', label: 'Fry hang from the nest' }];

describe('a step in its form', () => {
  it('has room for two things that it comes after, those not known blank', () => {
    const { after } = typedStep(step);
    expect(after).toEqual([
      { after: 'hatched', hours: '48', earliest: '36', latest: '60' },
      { after: '', hours: '', earliest: '', latest: '' },
    ]);
  });

  it('takes a time left blank as the one it is about, and drops what it does not come after', () => {
    const { after, basis } = changedStep(step, values, anchors);
    expect(after).toEqual([
      {
        after: 'hatched',
        afterTitle: 'Fry hang from the nest',
        hours: 48,
        earliest: 48,
        latest: 48,
      },
    ]);
    expect(basis).toBe('OWN');
  });

  it('keeps every end of a repeat while the one shown is left alone', () => {
    const untilOf = (until: string) => changedStep(step, { ...values, until }, anchors).until;
    expect(untilOf('jarred')).toEqual(['jarred', 'failed']);
    expect(untilOf('counted')).toEqual(['counted']);
    expect(untilOf('')).toEqual([]);
  });

  it('takes its own place among the steps, or the last one', () => {
    const other = newStep([step]);
    expect(withStep([step, other], { ...step, title: 'Feed twice' })[0]!.title).toBe('Feed twice');
    expect(withStep([step], other)).toEqual([step, other]);
  });
});
