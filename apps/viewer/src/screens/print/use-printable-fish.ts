import { useEffect, useState } from 'react';
import { useClient, type Client } from 'urql';
import { whileReading } from '../../api/asking-again.js';
import type { VariablesOf } from '../../api/graphql.js';
import { PRINTABLE_FISH } from '../../api/print.js';
import { problemFrom, type Problem } from '../../api/problem.js';
import { useAskingAgain } from '../../api/use-asking-again.js';
import { compareTags } from '../../wording/tags.js';

const PAGE = 200;
/** As many as the server prints at once. */
const MOST = 1_000;

interface PrintableFish {
  readonly list: readonly { id: string; tag: string }[];
  readonly total: number;
  readonly loading: boolean;
  readonly problem: Problem | null;
}

const nothing: PrintableFish = { list: [], total: 0, loading: true, problem: null };

type Filter = NonNullable<VariablesOf<typeof PRINTABLE_FISH>['filter']>;

/** Reads page after page, telling of each; ends early once `isWanted` says no more. */
async function readPages(
  client: Client,
  filter: Filter,
  isWanted: () => boolean,
  show: (next: (before: PrintableFish) => PrintableFish) => void,
): Promise<void> {
  let list: PrintableFish['list'] = [];
  let after: string | null = null;
  do {
    const variables: VariablesOf<typeof PRINTABLE_FISH> = { filter, first: PAGE, after };
    const { data, error } = await client.query(PRINTABLE_FISH, variables).toPromise();
    if (!isWanted()) return;
    if (data == null) {
      const problem = error === undefined ? null : whileReading(problemFrom(error));
      return show((before) => ({ ...before, loading: false, problem }));
    }
    const { edges, pageInfo, totalCount: total } = data.fishList;
    list = [...list, ...edges.map(({ node }) => node)];
    const inOrder = [...list].sort((a, b) => compareTags(a.tag, b.tag));
    show(() => ({ list: inOrder, total, loading: false, problem: null }));
    after = pageInfo.hasNextPage ? pageInfo.endCursor : null;
  } while (after !== null && list.length < MOST);
}

/** The fish that fit, page after page, so that a whole brood can be printed at once. */
export function usePrintableFish(filter: Filter, pause: boolean): PrintableFish {
  const client = useClient();
  const [state, setState] = useState(nothing);
  const key = JSON.stringify(filter);
  const [round, setRound] = useState(0);
  useEffect(() => {
    if (pause) return;
    let wanted = true;
    void readPages(client, JSON.parse(key) as Filter, () => wanted, setState);
    return () => {
      wanted = false;
    };
  }, [client, key, pause, round]);
  useAskingAgain(state.problem, () => setRound((count) => count + 1));
  return state;
}
