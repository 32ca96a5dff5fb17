import { useCallback, useEffect, useRef, useState } from 'react';
import { useClient, type AnyVariables, type TypedDocumentNode } from 'urql';
import { whileReading } from './asking-again.js';
import { problemFrom, type Problem } from './problem.js';
import { useAskingAgain } from './use-asking-again.js';

export interface Page<Node, Rest = undefined> {
  nodes: readonly Node[];
  hasNextPage: boolean;
  endCursor: string | null;
  totalCount: number;
  /** What stands beside the rows, where the list has such. */
  rest?: Rest;
}

export interface Pages<Node, Rest = undefined> {
  nodes: readonly Node[];
  totalCount: number | null;
  rest: Rest | undefined;
  hasNextPage: boolean;
  loading: boolean;
  problem: Problem | null;
  next: () => void;
  reload: () => void;
  /** Begins again from the first page; the old rows stay in view meanwhile. */
  refresh: () => void;
}

interface Gathered<Node, Rest> {
  key: string;
  nodes: readonly Node[];
  page: Page<Node, Rest> | null;
  problem: Problem | null;
  /** Cursor after which the page lies that failed. */
  failedAfter: string | null;
}

/**
 * Gathers the pages of a keyset-paged list, one at a time, as `next` asks for them. A change of `variables` starts
 * again from the first page while the old rows stay in view.
 *
 * @param pageOf picks the connection out of the answer; must be stable (defined outside the component).
 */
export function usePages<Data, Variables extends AnyVariables, Node, Rest = undefined>(
  query: TypedDocumentNode<Data, Variables>,
  variables: Omit<Variables & object, 'after'>,
  pageOf: (data: Data) => Page<Node, Rest>,
): Pages<Node, Rest> {
  const client = useClient();
  const [round, setRound] = useState(0);
  const key = `${round} ${JSON.stringify(variables)}`;
  const [gathered, setGathered] = useState<Gathered<Node, Rest>>({
    key: '',
    nodes: [],
    page: null,
    problem: null,
    failedAfter: null,
  });
  const underWay = useRef<string | null>(null);

  const fetchPage = useCallback(
    async (after: string | null) => {
      const ticket = `${key} ${after ?? ''}`;
      if (underWay.current === ticket) return;
      underWay.current = ticket;
      const current = JSON.parse(key.slice(key.indexOf(' ') + 1)) as object;
      const answer = await client
        .query(query, { ...current, after } as unknown as Variables, {
          requestPolicy: 'network-only',
        })
        .toPromise();
      if (underWay.current !== ticket) return;
      underWay.current = null;
      const { data, error } = answer;
      if (data == null) {
        const problem = error === undefined ? null : whileReading(problemFrom(error));
        setGathered((before) => ({ ...before, key, problem, failedAfter: after }));
        return;
      }
      const page = pageOf(data);
      setGathered((before) => ({
        key,
        nodes: after !== null && before.key === key ? [...before.nodes, ...page.nodes] : page.nodes,
        page,
        problem: null,
        failedAfter: null,
      }));
    },
    [client, key, pageOf, query],
  );

  useEffect(() => {
    void fetchPage(null);
  }, [fetchPage]);

  const cursor = gathered.key === key ? (gathered.page?.endCursor ?? null) : null;
  // After a failure nothing is asked for until someone tries again.
  const hasNextPage =
    gathered.key === key && gathered.problem === null && gathered.page?.hasNextPage === true;
  const refresh = () => setRound((count) => count + 1);
  const { problem, failedAfter } = gathered;
  const reload = problem === null ? refresh : () => void fetchPage(failedAfter);
  useAskingAgain(problem, reload);
  return {
    nodes: gathered.nodes,
    totalCount: gathered.page?.totalCount ?? null,
    rest: gathered.page?.rest,
    hasNextPage,
    loading: gathered.key !== key,
    problem,
    next: () => {
      if (hasNextPage && cursor !== null) void fetchPage(cursor);
    },
    refresh,
    reload,
  };
}
