import { useEffect } from 'react';
import type { ResultOf } from '../../api/graphql.js';
import { usePages } from '../../api/use-pages.js';
import { VESSELS } from '../../api/vessels.js';

const pageOf = ({ vessels }: ResultOf<typeof VESSELS>) => ({
  nodes: vessels.edges.map(({ node }) => node),
  hasNextPage: vessels.pageInfo.hasNextPage,
  endCursor: vessels.pageInfo.endCursor,
  totalCount: vessels.totalCount,
});

/** Every vessel in use, as they stand: a rack is drawn whole, so page follows page by itself. */
export function useVessels() {
  const { nodes, hasNextPage, loading, problem, next, refresh } = usePages(VESSELS, {}, pageOf);
  useEffect(() => {
    if (hasNextPage) next();
  }, [hasNextPage, next, nodes.length]);
  return { list: nodes, loading: loading || hasNextPage, problem, refresh };
}
