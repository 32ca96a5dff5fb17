import { describe, expect, it } from 'vitest';
import { countIn, rowsFor, withTags, type FounderRow } from './founder-rows.js';

const row = (tag: string, offered = tag, sex: FounderRow['sex'] = 'MALE'): FounderRow => ({
  ...{ id: tag, sex, tag, offered, name: '' },
});
const tagsOf = (rows: readonly FounderRow[]): string[] => rows.map(({ tag }) => tag);

describe('rows of founders', () => {
  it('are as many of each sex as were asked for', () => {
    const rows = rowsFor([], { males: 1, females: 2, unsexed: 1 });
    expect(rows.map(({ sex }) => sex)).toEqual(['MALE', 'FEMALE', 'FEMALE', 'UNSEXED']);
    expect(new Set(rows.map(({ id }) => id)).size).toBe(4);
  });

  it('keep what was typed when the number changes', () => {
    const typed = { ...row('X', ''), name: 'Old one' };
    const rows = rowsFor([typed, row('T-02')], { males: 1, females: 1, unsexed: 0 });
    expect(rows[0]).toBe(typed);
    expect(rows).toHaveLength(2);
  });

  it('take the tags offered in their order, and leave those that were typed', () => {
    const rows = withTags([row('', ''), row('T-02', ''), row('', '')], ['T-01', 'T-02', 'T-03']);
    expect(tagsOf(rows)).toEqual(['T-01', 'T-02', 'T-03']);
    expect(rows[1]?.offered).toBe('');
  });

  it('change with the line as long as nobody typed another tag', () => {
    const before = withTags([row('', ''), row('mine', '')], ['T-01']);
    expect(tagsOf(withTags(before, ['K-01', 'K-02']))).toEqual(['K-01', 'mine']);
  });

  it('are empty where nothing is offered', () => {
    expect(tagsOf(withTags([row('T-01')], []))).toEqual(['']);
  });

  it('are none for what is no number, and not without end', () => {
    expect(['', 'two', '-1', '2.5', '3', '900'].map(countIn)).toEqual([0, 0, 0, 0, 3, 20]);
  });
});
