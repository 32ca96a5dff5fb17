import { describe, expect, it } from 'vitest';
import type { Brood } from '../../api/round-course.js';
import { whatCame } from './what-came.js';

type BroodFish = Brood['fish'][number];

let number = 0;
const young = (
  disposition: BroodFish['disposition'],
  spread: number | null,
  look: string | null = null,
  gone = false,
): BroodFish => {
  number += 1;
  const id = `f${number}`;
  return {
    ...{ id, tag: id.toUpperCase(), disposition },
    withdrawn: gone ? { at: '2026-01-01T00:00:00Z' } : null,
    latestScores: spread === null ? [] : [{ id: `s${id}`, value: spread, trait: { id: 't' } }],
    phenotypesSeen:
      look === null
        ? []
        : [{ id: `l${id}`, locusId: 'bl', phenotype: look, seenOn: '2026-02-01', withdrawn: null }],
  };
};

const brood: Brood = {
  id: 'b',
  counts: [
    { id: 'c1', stage: 'HATCHED', number: 90 },
    { id: 'c2', stage: 'EGGS', number: 200 },
    { id: 'c3', stage: 'HATCHED', number: 120 },
  ],
  losses: [
    { id: 'l1', kind: 'DIED', number: 30 },
    { id: 'l2', kind: 'CULLED', number: 40 },
    { id: 'l3', kind: 'PLACED', number: 5 },
  ],
  fish: [
    young('KEEPER', 180, 'royal'),
    young('HOLD', 170, 'steel'),
    young('CULLED', 150, 'royal'),
    young('DIED', null),
    young('UNSORTED', null, 'royal'),
    young('KEEPER', 10, 'steel', true),
  ],
};
const trait = { id: 't', name: 'Spread', unit: '°' };
const aims = {
  traits: [{ traitId: 't', trait, better: 'HIGHER', low: 175, high: null, worth: 1 } as const],
  looks: [
    { show: [{ locusId: 'bl', phenotype: 'royal' }], wanted: true, worth: 1, required: false },
  ],
};

describe('what came of a brood', () => {
  const came = whatCame(brood, aims);

  it('is counted: the largest count of a stage, in order, and losses with a record and without', () => {
    expect(came.counts).toEqual([
      { stage: 'EGGS', number: 200 },
      { stage: 'HATCHED', number: 120 },
    ]);
    expect([came.died, came.culled]).toEqual([31, 41]);
  });

  it('is kept where a young is a keeper or on hold and its record stands', () => {
    expect(came.kept.map(({ tag }) => tag)).toEqual(['F1', 'F2']);
    expect([came.recorded, came.unsorted]).toEqual([5, 1]);
  });

  it('is set beside what was wished for: of all young, and of those kept', () => {
    const [spread] = came.traits;
    expect(spread?.all).toEqual({ scored: 3, mean: 500 / 3, passing: 1 });
    expect(spread?.kept).toEqual({ scored: 2, mean: 175, passing: 1 });
    expect(came.looks).toEqual([{ known: 4, showing: 3 }]);
  });

  it('has no mean where none was scored', () => {
    const none = whatCame({ ...brood, fish: [young('KEEPER', null)] }, aims);
    expect(none.traits[0]?.kept).toEqual({ scored: 0, mean: null, passing: 0 });
    expect(none.looks).toEqual([{ known: 0, showing: 0 }]);
  });
});
