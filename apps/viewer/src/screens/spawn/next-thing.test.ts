import { describe, expect, it } from 'vitest';
import type { PlannedStep } from '../../api/care.js';
import { nextThing } from './next-thing.js';

const NOW = Date.parse('2026-06-01T12:00:00Z');
const step = (id: string, state: string) =>
  ({ state, about: '2026-06-01T10:00:00Z', step: { id, kind: 'DO', title: id } }) as PlannedStep;
const of = (steps: PlannedStep[], more: object = {}, pictured: string[] = ['2026-05-30']) =>
  nextThing({
    spawn: { hatchDate: '2026-05-01', counts: [], withdrawn: null, fishCount: 4, ...more } as never,
    care: { steps, endedBy: null },
    pictured,
    now: NOW,
  });
const counts = [{ stage: 'TWO_WEEKS' }];

describe('the one thing that a spawn asks for now', () => {
  it('is sorting when it is time, whatever else is due', () => {
    const steps = [step('fed', 'OVERDUE'), step('sorted', 'DUE')];
    expect(of(steps)).toEqual({ kind: 'sort' });
    // Without a fish on record there is nothing to sort.
    expect(of(steps, { fishCount: 0 })).toMatchObject({ kind: 'log', step: steps[0] });
    expect(of([step('sorted', 'UPCOMING')], { counts })).toMatchObject({ kind: 'wait' });
  });

  it('is a step of the plan before a count, a count before a picture', () => {
    expect(of([step('fed', 'DUE')])).toMatchObject({ kind: 'log' });
    expect(of([step('fed', 'UPCOMING')])).toEqual({ kind: 'count' });
    expect(of([], { counts }, [])).toEqual({ kind: 'photo' });
    expect(of([], { counts }, ['2026-05-01'])).toEqual({ kind: 'photo' });
    expect(of([], { counts })).toEqual({ kind: 'wait', step: null });
  });

  it('is no count and no picture before there are fry', () => {
    expect(of([], { hatchDate: null }, [])).toEqual({ kind: 'wait', step: null });
    expect(of([], { hatchDate: '2026-05-28', counts: [] })).toMatchObject({ kind: 'wait' });
  });

  it('is nothing of a spawn that is over', () => {
    expect(of([step('fed', 'DUE')], { withdrawn: { at: '', reason: '' } })).toBeNull();
    const ended = { steps: [step('fed', 'DUE')], endedBy: 'finished' };
    expect(
      nextThing({
        spawn: { hatchDate: null, counts: [], withdrawn: null, fishCount: 0 } as never,
        care: ended,
        ...{ pictured: [], now: NOW },
      }),
    ).toBeNull();
  });
});
