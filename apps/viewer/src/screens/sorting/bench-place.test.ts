import { describe, expect, it } from 'vitest';
import { blank, nowhere, placeIn, placeText, type BenchPlace } from './bench-place.js';

const place: BenchPlace = {
  fishId: 'f7',
  day: '2026-11-20',
  drafts: new Map([
    ['f1', { ...blank, culling: true }],
    [
      'f7',
      {
        ...blank,
        typed: new Map([['spread', '17']]),
        faultIds: new Set(['torn']),
        note: 'left si',
        culling: true,
      },
    ],
  ]),
};

describe('the place at the bench', () => {
  it('comes back with what is half typed, and asks nothing anew', () => {
    const back = placeIn(placeText(null, 's1', place), 's1');
    expect([back?.fishId, back?.day, back?.drafts.size]).toEqual(['f7', '2026-11-20', 1]);
    expect(back?.drafts.get('f7')).toEqual({ ...place.drafts.get('f7'), culling: false });
  });

  it('is one a spawn, of the last twenty', () => {
    let text: string | null = null;
    for (let n = 0; n < 25; n += 1) text = placeText(text, `s${n}`, { ...nowhere, fishId: `${n}` });
    text = placeText(text, 's10', { ...nowhere, fishId: 'newer' });
    expect(placeIn(text, 's4')).toBeNull();
    expect(placeIn(text, 's5')?.fishId).toBe('5');
    expect(placeIn(text, 's10')?.fishId).toBe('newer');
  });

  it('is nowhere in what cannot be read', () => {
    for (const text of [null, '', '{', '{"a":1}']) expect(placeIn(text, 's1')).toBeNull();
  });
});
