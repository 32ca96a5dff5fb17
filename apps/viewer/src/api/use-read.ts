import { useMemo } from 'react';
import { useQuery, type AnyVariables, type TypedDocumentNode } from 'urql';
import { whileReading } from './asking-again.js';
import { EVERY_RECORD } from './client.js';
import { problemFrom, type Problem } from './problem.js';
import { useAskingAgain } from './use-asking-again.js';

export interface Read<Data> {
  data: Data | undefined;
  /** True only while there is nothing to show yet. */
  loading: boolean;
  /** The picture shown may be older than the answer under way. */
  refreshing: boolean;
  problem: Problem | null;
  reload: () => void;
}

export function useRead<Data, Variables extends AnyVariables>(
  query: TypedDocumentNode<Data, Variables>,
  variables: Variables,
  options: { pause?: boolean } = {},
): Read<Data> {
  const [{ data: answer, fetching, stale, error }, run] = useQuery<Data, AnyVariables>({
    query: query as TypedDocumentNode<Data, AnyVariables>,
    variables: variables as AnyVariables,
    pause: options.pause ?? false,
    context: EVERY_RECORD,
  });
  // An answer of errors alone has null for data.
  const data = answer ?? undefined;
  const problem = useMemo(
    () => (error === undefined ? null : whileReading(problemFrom(error))),
    [error],
  );
  const reload = () => run({ requestPolicy: 'network-only' });
  useAskingAgain(problem, reload);
  return {
    data,
    loading: data === undefined && problem === null && options.pause !== true,
    refreshing: fetching || stale,
    problem,
    reload,
  };
}
