import { describe, expect, it } from 'vitest';
import { standingOf, withPage, type Gathered } from './use-pages.js';

const page = (nodes: readonly number[], endCursor: string | null) => ({
  nodes,
  hasNextPage: endCursor !== null,
  endCursor,
  totalCount: 4,
});
const gathered: Gathered<number, undefined> = {
  key: 'a',
  nodes: [1, 2],
  page: page([1, 2], 'c2'),
  problem: null,
  failedAfter: null,
};
const problem = { code: 'INTERNAL', message: 'It failed.', fields: [], reference: null };

describe('gathered pages', () => {
  it('grow by the next page of the same question', () => {
    expect(withPage(gathered, 'a', 'c2', page([3, 4], null)).nodes).toEqual([1, 2, 3, 4]);
  });

  it('begin anew with the first page, and with any page of another question', () => {
    expect(withPage(gathered, 'a', null, page([9], null)).nodes).toEqual([9]);
    expect(withPage(gathered, 'b', 'c2', page([9], null)).nodes).toEqual([9]);
  });

  it('ask for more only under their own question, and after a failure only when told', () => {
    expect(standingOf(gathered, 'a')).toEqual({
      loading: false,
      nextAfter: 'c2',
      hasNextPage: true,
    });
    expect(standingOf(gathered, 'b')).toEqual({
      loading: true,
      nextAfter: null,
      hasNextPage: false,
    });
    expect(standingOf({ ...gathered, problem }, 'a').hasNextPage).toBe(false);
    expect(standingOf({ ...gathered, page: page([1], null) }, 'a').nextAfter).toBeNull();
  });
});
