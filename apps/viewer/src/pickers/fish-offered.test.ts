import { describe, expect, it } from 'vitest';
import { fishOffered } from './fish-offered.js';

const fish = {
  id: 'f1',
  tag: 'T24-07-01',
  name: 'Blue',
  sex: 'MALE',
  disposition: 'HOLD',
  place: 'HERE',
  notShared: [] as 'PLACE'[],
  swimsWith: null,
  hatchDate: null,
  line: null,
} as const;
const found = (totalCount: number) => ({ totalCount, edges: [{ node: fish }] });
const chosen = { id: 'f9', tag: 'T24-07-09', sex: 'FEMALE' } as const;

describe('the fish offered by a picker', () => {
  it('are told by tag, sex, decision and name', () => {
    expect(fishOffered(found(1), undefined)).toEqual([
      { value: 'f1', label: 'T24-07-01 · male · hold · Blue' },
    ]);
  });

  it('say of a fish whose place is not shared that it is not, and of no other', () => {
    const words = (notShared: 'PLACE'[]) =>
      fishOffered(
        { totalCount: 1, edges: [{ node: { ...fish, place: 'UNKNOWN', notShared } }] },
        undefined,
      )[0]?.label;
    expect(words(['PLACE'])).toContain('place not shared with you');
    expect(words([])).toContain('place not known');
  });

  it('begin with the chosen one where it is not among those found, and name it once', () => {
    expect(fishOffered(found(1), chosen).map(({ value }) => value)).toEqual(['f9', 'f1']);
    expect(fishOffered(found(1), fish).map(({ value }) => value)).toEqual(['f1']);
    expect(fishOffered(undefined, chosen)).toEqual([{ value: 'f9', label: 'T24-07-09 · female' }]);
  });

  it('end with how many more there are, which cannot be chosen', () => {
    expect(fishOffered(found(1241), undefined).at(-1)).toEqual({
      value: 'more',
      label: '1,240 more: type more of the tag',
      disabled: true,
    });
  });
});
