import { describe, expect, it } from 'vitest';
import { ammoniaText, askedOf, figuresText, harmfulPoints } from './water-texts.js';

describe('readings of water', () => {
  it('are those of a spawn or of a vessel', () => {
    expect(askedOf({ spawnId: 's' })).toEqual({ spawnId: 's', vessel: null });
    expect(askedOf({ vessel: 'sump' })).toEqual({ spawnId: null, vessel: 'sump' });
    expect(askedOf({ vessel: null })).toEqual({ spawnId: null, vessel: null });
  });

  it('have a dash for what was not measured', () => {
    expect(figuresText(7.25, null)).toBe('7.25, –');
    expect(ammoniaText({ totalAmmonia: null, ammoniaUnit: 'TAN' as never })).toBe('–');
    expect(ammoniaText({ totalAmmonia: 0.5, ammoniaUnit: null })).toBe('–');
  });

  it('are drawn where the part that harms fish is known', () => {
    const at = '2026-03-14T08:00:00Z';
    const known = { asNH3: 0.01 } as never;
    expect(
      harmfulPoints([
        { id: 'a', takenAt: at, unionised: known },
        { id: 'b', takenAt: at, unionised: null },
      ]),
    ).toEqual([{ id: 'a', at: new Date(at), unionised: 0.01 }]);
  });
});
