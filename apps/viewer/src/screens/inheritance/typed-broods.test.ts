import { describe, expect, it } from 'vitest';
import {
  blankBrood,
  broodOnRecord,
  broodsOf,
  changed,
  withBlank,
  without,
  withRecords,
} from './typed-broods.js';

const counts = {
  carrier: 'SIRE',
  phase: 'APART',
  both: 1,
  firstOnly: 9,
  secondOnly: 8,
  neither: 0,
} as const;

describe('broods as typed', () => {
  it('are asked about when they have young, blanks as 0', () => {
    const typed = { ...blankBrood(1), carrier: 'BOTH', neither: '12', both: '3' } as const;
    expect(broodsOf([typed, blankBrood(2)])).toEqual([
      { carrier: 'BOTH', phase: 'UNKNOWN', neither: 12, firstOnly: 0, secondOnly: 0, both: 3 },
    ]);
  });

  it('may come from the records, and are asked about as they stand there', () => {
    const typed = broodOnRecord({ ...counts, spawnId: 'x', spawnTag: 'K26-03' }, 4);
    expect(typed).toMatchObject({ key: 4, spawnTag: 'K26-03', neither: '0' });
    expect(broodsOf([typed])).toEqual([counts]);
  });

  it('give way to what the records say of other looks; those typed by hand stay', () => {
    const found = { ...counts, spawnId: 'x', spawnTag: 'K26-03' };
    const byHand = { ...blankBrood(1), both: '7' };
    const first = withRecords([blankBrood(1), { ...byHand, key: 2 }], [found]);
    expect(first.map(({ key, spawnTag, both }) => [key, spawnTag, both])).toEqual([
      [1, 'K26-03', '1'],
      [2, '', '7'],
    ]);
    expect(withRecords(first, [])).toEqual([byHand]);
    expect(withRecords([broodOnRecord(found, 1)], [])).toEqual([blankBrood(1)]);
  });

  it('are changed, added and removed one at a time', () => {
    const two = withBlank([blankBrood(4)]);
    expect(two.map(({ key }) => key)).toEqual([4, 5]);
    expect(changed(two, 5, { both: '7' }).map(({ both }) => both)).toEqual(['', '7']);
    expect(without(two, 4)).toEqual([blankBrood(5)]);
    expect(withBlank([])).toEqual([blankBrood(1)]);
  });

  it('are not, while a count cannot be read', () => {
    expect(broodsOf([{ ...blankBrood(1), neither: 'twelve' }])).toBeNull();
    expect(broodsOf([{ ...blankBrood(1), neither: '4', both: '-1' }])).toBeNull();
  });
});
