import { describe, expect, it } from 'vitest';
import type { PlannedStep } from '../../api/care.js';
import { nextSteps, tapHint, tapTitle } from './tap-words.js';

const planned = (id: string, state: string, about: string | null) =>
  ({
    state,
    about,
    to: null,
    records: [],
    step: { id, kind: 'FEED', title: id },
  }) as unknown as PlannedStep;

describe('what is tapped in the log of a spawn', () => {
  it('overdue first, then due, then what is expected soonest; four at most', () => {
    const steps = [
      planned('later', 'UPCOMING', '2026-11-29T08:00:00Z'),
      planned('soon', 'UPCOMING', '2026-11-27T08:00:00Z'),
      planned('now', 'DUE', '2026-11-26T08:00:00Z'),
      planned('late', 'OVERDUE', '2026-11-25T08:00:00Z'),
      planned('last', 'UPCOMING', '2026-12-09T08:00:00Z'),
      planned('done', 'DONE', '2026-11-20T08:00:00Z'),
      planned('no time', 'UPCOMING', null),
    ];
    expect(nextSteps(steps).map(({ step }) => step.id)).toEqual(['late', 'now', 'soon', 'later']);
  });

  it('a look is told as what it finds, other steps by their title', () => {
    const step = (id: string, kind: string) => ({ id, kind, title: 'look for fry' }) as never;
    expect([tapTitle(step('feed', 'FEED')), tapTitle(step('look', 'OBSERVE'))]).toEqual([
      ...['look for fry', 'Seen: look for fry'],
    ]);
    expect(tapTitle(step('hatched', 'OBSERVE'))).toMatch(/^[A-Z]/);
  });

  it('says under it why there is no time', () => {
    expect(tapHint(planned('a', 'SKIPPED', null))).toBe('skipped');
    expect(tapHint(planned('a', 'NO_LONGER', null))).toBe('not needed');
    expect(tapHint(planned('a', 'UPCOMING', null))).toBe('no time yet');
  });
});
