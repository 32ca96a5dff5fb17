import { describe, expect, it } from 'vitest';
import { blankBrood, broodsOf } from './typed-broods.js';

describe('broods as typed', () => {
  it('are asked about when they have young, blanks as 0', () => {
    const typed = { ...blankBrood(1), carrier: 'BOTH', neither: '12', both: '3' } as const;
    expect(broodsOf([typed, blankBrood(2)])).toEqual([
      { carrier: 'BOTH', phase: 'UNKNOWN', neither: 12, firstOnly: 0, secondOnly: 0, both: 3 },
    ]);
  });

  it('are not, while a count cannot be read', () => {
    expect(broodsOf([{ ...blankBrood(1), neither: 'twelve' }])).toBeNull();
    expect(broodsOf([{ ...blankBrood(1), neither: '4', both: '-1' }])).toBeNull();
  });
});
