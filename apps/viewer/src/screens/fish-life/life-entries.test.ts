import { describe, expect, it } from 'vitest';
import type { LivedFish } from '../../api/life.js';
import { lifeOf } from './life-entries.js';

const bare: LivedFish = {
  ...{ id: 'f1', tag: 'T-1', hatchDate: null, disposition: 'UNSORTED', dispositionDate: null },
  ...{ dispositionReason: null, origin: null, notShared: [], spawn: null, scores: [] },
  ...{ sheetScorings: [], phenotypesSeen: [], photos: [], handOvers: [], spawnsAsParent: [] },
  ...{ showResults: [], deals: [] },
};
const trait = {
  ...{ name: 'Length', kind: 'MEASURED' as const, unit: 'mm', minimum: null, maximum: null },
  grades: [],
};

describe('a life', () => {
  it('is empty where nothing has a day', () => {
    const photo = { id: 'p', takenOn: null, smallPath: '/p', caption: null };
    expect(lifeOf({ ...bare, photos: [photo] })).toEqual([]);
  });

  it('has every kind by its day, the newest first, and the scores of a day together', () => {
    const life = lifeOf({
      ...bare,
      ...{ hatchDate: '2026-01-01', spawn: { id: 's1', tag: 'S-1' } },
      ...{ disposition: 'DIED', dispositionDate: '2026-11-01', dispositionReason: 'old age' },
      scores: [
        { id: 'a', scoredOn: '2026-05-01', value: 40, trait },
        {
          id: 'b',
          scoredOn: '2026-05-01',
          value: 3,
          trait: { ...trait, name: 'Tail', unit: null },
        },
      ],
      spawnsAsParent: [{ id: 's2', tag: 'S-2', spawnedOn: '2026-06-01', failed: true }],
      handOvers: [
        {
          ...{ id: 'h', kind: 'LOAN', movedOn: '2026-07-01', endedOn: '2026-08-01' },
          ...{ endedAs: 'CAME_BACK', toName: 'Runa', from: { name: 'Odo' } },
        },
      ],
      showResults: [
        {
          ...{ id: 'w', show: 'Autumn show', onDate: '2026-09-01', class: 'Young males' },
          ...{ placing: 2, points: 81.5, note: null },
        },
      ],
      deals: [
        {
          ...{ id: 'd', kind: 'ASKED', onDate: '2026-10-01', amount: 1250, currency: 'EUR' },
          withWhom: null,
        },
      ],
    });
    expect(life.map(({ on, kind, words }) => `${on} ${kind}: ${words}`)).toEqual([
      '2026-11-01 began: Died, old age',
      '2026-10-01 priced: Put up for sale, EUR 12.50',
      '2026-09-01 shown: Autumn show, Young males, place 2, 81.5 points',
      '2026-08-01 moved: Back from Runa',
      '2026-07-01 moved: Lent by Odo to Runa',
      '2026-06-01 bred: Spawned S-2, which failed',
      '2026-05-01 scored: Length 40 mm; Tail 3',
      '2026-01-01 began: Hatched in S-1',
    ]);
  });
});
