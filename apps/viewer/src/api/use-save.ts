import { useCallback, useState } from 'react';
import { useClient, type AnyVariables, type TypedDocumentNode } from 'urql';
import { EVERY_RECORD } from './client.js';
import { problemFrom, type Problem } from './problem.js';

export interface Save<Data, Variables> {
  /** Resolves to the saved data, or to null when the save failed (then `problem` says why). */
  save: (variables: Variables) => Promise<Data | null>;
  saving: boolean;
  problem: Problem | null;
  clear: () => void;
}

/** What `useSave` gives for a mutation. */
export type SaveOf<Mutation> =
  Mutation extends TypedDocumentNode<infer Data, infer Variables> ? Save<Data, Variables> : never;

export function useSave<Data, Variables extends AnyVariables>(
  mutation: TypedDocumentNode<Data, Variables>,
): Save<Data, Variables> {
  const client = useClient();
  const [saving, setSaving] = useState(false);
  const [problem, setProblem] = useState<Problem | null>(null);
  const save = useCallback(
    async (variables: Variables) => {
      setSaving(true);
      setProblem(null);
      const { data, error } = await client.mutation(mutation, variables, EVERY_RECORD).toPromise();
      setSaving(false);
      if (error !== undefined || data == null) {
        setProblem(error === undefined ? null : problemFrom(error));
        return null;
      }
      return data;
    },
    [client, mutation],
  );
  const clear = useCallback(() => setProblem(null), []);
  return { save, saving, problem, clear };
}
