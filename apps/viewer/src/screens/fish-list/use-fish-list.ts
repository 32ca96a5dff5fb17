import { useSearchParams } from 'react-router';
import { FISH_LIST } from '../../api/fish.js';
import type { ResultOf } from '../../api/graphql.js';
import { usePages } from '../../api/use-pages.js';
import type { ListSort } from '../../components/virtual-list.js';
import { useMayChange } from '../../session/may.js';
import {
  filterFrom,
  isFiltered,
  isHereOnly,
  sortFrom,
  withParts,
  type FishSortField,
} from './fish-filter.js';

const PAGE = 100;

const pageOf = ({ fishList }: ResultOf<typeof FISH_LIST>) => ({
  nodes: fishList.edges.map((edge) => edge.node),
  hasNextPage: fishList.pageInfo.hasNextPage,
  endCursor: fishList.pageInfo.endCursor,
  totalCount: fishList.totalCount,
});

/** The fish that fit the address, page by page, in the order it asks for. */
export function useFishList() {
  const [search, setSearch] = useSearchParams();
  const ours = useMayChange();
  const filter = filterFrom(search, !ours);
  const sort = sortFrom(search);
  const pages = usePages(FISH_LIST, { filter, sort, first: PAGE }, pageOf);
  return {
    ...{ filter, sort, pages },
    hereOnly: ours && isHereOnly(search),
    filtered: isFiltered(search),
    allAddress: `/fish?${withParts(search, { use: 'all' }).toString()}`,
    /** What a saved search keeps; empty where nothing is narrowed. */
    savedAs: isFiltered(search) ? search.toString() : '',
    printAddress: `/print?${search.toString()}`,
    setSort: ({ field, direction }: ListSort<FishSortField>) =>
      setSearch(
        (before) => withParts(before, { sort: field, order: direction === 'DESC' ? 'down' : 'up' }),
        { replace: true },
      ),
  };
}

export type FishList = ReturnType<typeof useFishList>;
