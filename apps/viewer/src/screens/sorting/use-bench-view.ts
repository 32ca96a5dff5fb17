import { useSearchParams } from 'react-router';

/** What of the bench is shown, as the address says: a table or cards, the counted locus, the score sheet. */
export function useBenchView() {
  const [search, setSearch] = useSearchParams();
  const asked = search.get('as');
  const wide = window.matchMedia('(min-width: 720px)').matches;
  return {
    asList: asked === null ? wide : asked === 'list',
    locusId: search.get('locus'),
    sheetAsked: search.get('sheet'),
    choose: (key: string, value: string) =>
      setSearch(
        (before) => {
          before.set(key, value);
          return before;
        },
        { replace: true, preventScrollReset: true },
      ),
  };
}

export type BenchView = ReturnType<typeof useBenchView>;
