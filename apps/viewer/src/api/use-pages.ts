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

export interface Gathered<Node, Rest> {
  key: string;
  nodes: readonly Node[];
  page: Page<Node, Rest> | null;
  problem: Problem | null;
  /** Cursor after which the page lies that failed. */
  failedAfter: string | null;
}

const nothing = { key: '', nodes: [], page: null, problem: null, failedAfter: null };

/** Rows of the same question are added to; those of another one are replaced. */
export function withPage<Node, Rest>(
  gathered: Gathered<Node, Rest>,
  key: string,
  after: string | null,
  page: Page<Node, Rest>,
): Gathered<Node, Rest> {
  const goesOn = after !== null && gathered.key === key;
  const nodes = goesOn ? [...gathered.nodes, ...page.nodes] : page.nodes;
  return { key, nodes, page, problem: null, failedAfter: null };
}

/** Where a list stands: what was gathered under another key is only still in view, and after a failure nothing is asked for until someone tries again. */
export function standingOf<Node, Rest>(
  { key, page, problem }: Gathered<Node, Rest>,
  wanted: string,
): { loading: boolean; nextAfter: string | null; hasNextPage: boolean } {
  const current = key === wanted;
  const hasNextPage = current && problem === null && page?.hasNextPage === true;
  return {
    loading: !current,
    nextAfter: hasNextPage ? page.endCursor : null,
    hasNextPage,
  };
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
  const [round, setRound] = useState(0);
  const key = `${round} ${JSON.stringify(variables)}`;
  const { gathered, fetchPage } = useGathered(query, key, pageOf);
  useEffect(() => {
    void fetchPage(null);
  }, [fetchPage]);
  const { loading, nextAfter, hasNextPage } = standingOf(gathered, key);
  const { nodes, page, problem, failedAfter } = gathered;
  const refresh = () => setRound((count) => count + 1);
  const reload = problem === null ? refresh : () => void fetchPage(failedAfter);
  useAskingAgain(problem, reload);
  return {
    nodes,
    totalCount: page?.totalCount ?? null,
    rest: page?.rest,
    hasNextPage,
    loading,
    problem,
    next: () => {
      if (nextAfter !== null) void fetchPage(nextAfter);
    },
    refresh,
    reload,
  };
}

/** What was gathered so far, and how to ask for a page; of two answers under way only the one asked for last counts. */
function useGathered<Data, Variables extends AnyVariables, Node, Rest>(
  query: TypedDocumentNode<Data, Variables>,
  key: string,
  pageOf: (data: Data) => Page<Node, Rest>,
) {
  const client = useClient();
  const [gathered, setGathered] = useState<Gathered<Node, Rest>>(nothing);
  const underWay = useRef<string | null>(null);
  const fetchPage = useCallback(
    async (after: string | null) => {
      const ticket = `${key} ${after ?? ''}`;
      if (underWay.current === ticket) return;
      underWay.current = ticket;
      const variables = JSON.parse(key.slice(key.indexOf(' ') + 1)) as object;
      const { data, error } = await client
        .query(query, { ...variables, after } as unknown as Variables, {
          requestPolicy: 'network-only',
        })
        .toPromise();
      if (underWay.current !== ticket) return;
      underWay.current = null;
      const problem = error === undefined ? null : whileReading(problemFrom(error));
      setGathered((so) =>
        data == null
          ? { ...so, key, problem, failedAfter: after }
          : withPage(so, key, after, pageOf(data)),
      );
    },
    [client, key, pageOf, query],
  );
  return { gathered, fetchPage };
}
