import { useState } from 'react';
import { useClient, type AnyVariables, type TypedDocumentNode } from 'urql';
import type { Problem } from './problem.js';
import { useSave } from './use-save.js';

interface Revised {
  readonly id: string;
  readonly revision: number;
}

interface Corrected<Facts, Data, Variables, Found> {
  readonly record: Facts;
  readonly mutation: TypedDocumentNode<Data, Variables>;
  /** Asks for the record as it is recorded now. */
  readonly query: TypedDocumentNode<Found, { id: string }>;
  readonly factsIn: (found: Found) => Facts;
}

export interface Correction<Facts, Variables> {
  /** The record at the time when the form was opened: later answers of the API do not move it. */
  readonly opened: Facts;
  /** What is recorded now, when that was changed after the form was opened. */
  readonly changed: Facts | null;
  readonly saving: boolean;
  /** Why it was not saved, unless `changed` says so. */
  readonly problem: Problem | null;
  /** Whether it was saved. */
  save(variables: Variables): Promise<boolean>;
}

/** Saves a correction under the revision that the form was opened at; a change by others meanwhile is read and told. */
export function useCorrection<Facts extends Revised, Data, Variables extends AnyVariables, Found>({
  record,
  mutation,
  query,
  factsIn,
}: Corrected<Facts, Data, Variables, Found>): Correction<Facts, Variables> {
  const client = useClient();
  const [opened] = useState(record);
  const [now, setNow] = useState<Facts | null>(null);
  const { save, saving, problem } = useSave(mutation);
  const changed = problem?.code === 'CONFLICT_REVISION' ? now : null;
  return {
    opened,
    changed,
    saving,
    problem: changed === null ? problem : null,
    save: async (variables) => {
      if ((await save(variables)) !== null) return true;
      const { data } = await client
        .query(query, { id: opened.id }, { requestPolicy: 'network-only' })
        .toPromise();
      setNow(data === undefined ? null : factsIn(data));
      return false;
    },
  };
}
