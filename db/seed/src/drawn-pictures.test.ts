import { describe, expect, it } from 'vitest';
import { demoScenario } from './index.js';

describe('drawings in place of photos', () => {
  const { fish, pictures, sheetScorings } = demoScenario({ seed: 7, today: '2026-03-14' });

  it('show fish and looks that are on record, and say that they are drawings', () => {
    const known = new Set([...fish, ...sheetScorings].map(({ id }) => id));
    expect(pictures.length).toBeGreaterThan(20);
    expect(pictures.length).toBeLessThan(40);
    expect(pictures.filter(({ subjectId }) => !known.has(subjectId))).toEqual([]);
    expect(pictures.filter(({ caption }) => !/^Drawing of .*no photos/.test(caption))).toEqual([]);
  });

  it('show some fish over their weeks, and none before its day or after today', () => {
    const born = new Map(fish.map(({ id, hatchDate }) => [id, hatchDate ?? '']));
    const times = (id: string) => pictures.filter(({ subjectId }) => subjectId === id).length;
    const often = new Set(pictures.map(({ subjectId }) => subjectId).filter((id) => times(id) > 2));
    expect(often.size).toBe(2);
    for (const { takenOn, subjectId } of pictures) {
      expect(takenOn <= '2026-03-14').toBe(true);
      expect(takenOn > (born.get(subjectId) ?? '')).toBe(true);
    }
  });
});
