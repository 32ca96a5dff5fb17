import { useState } from 'react';
import { useClient, type Client } from 'urql';
import {
  CHANGE_FISH_TOGETHER,
  CHOSEN_FISH,
  PREVIEW_FISH_TOGETHER,
  type FishAct,
  type FishActInput,
  type FishActPreview,
} from '../../api/fish-acts.js';
import type { VariablesOf } from '../../api/graphql.js';
import { newId } from '../../api/new-id.js';
import { problemFrom, type Problem } from '../../api/problem.js';
import { useSave } from '../../api/use-save.js';
import type { Choice } from './choice.js';

type Input = VariablesOf<typeof CHANGE_FISH_TOGETHER>['input'];

export interface Looked {
  /** Sent again with the same id after a lost answer, the act is done once. */
  readonly input: Input;
  readonly preview: FishActPreview;
}

const fresh = { requestPolicy: 'network-only' as const };

/** Reads the fish as they are now, and asks what the act would change of them. */
async function lookAt(
  client: Client,
  choice: Choice,
  act: FishActInput,
): Promise<Looked | Problem | null> {
  const ids = choice.map(({ id }) => id);
  const read = await client.query(CHOSEN_FISH, { ids }, fresh).toPromise();
  if (read.error !== undefined) return problemFrom(read.error);
  const fish = (read.data?.fishList.edges ?? []).map(({ node: { id, revision } }) => ({
    id,
    revision,
  }));
  const input: Input = { ...act, id: newId(), fish };
  const tried = await client.query(PREVIEW_FISH_TOGETHER, { input }, fresh).toPromise();
  if (tried.error !== undefined) return problemFrom(tried.error);
  return tried.data === undefined ? null : { input, preview: tried.data.previewFishTogether };
}

/** An act for the chosen fish: first looked at as the fish are now, then saved. */
export function useAct() {
  const client = useClient();
  const [asking, setAsking] = useState(false);
  const [askProblem, setAskProblem] = useState<Problem | null>(null);
  const [looked, setLooked] = useState<Looked | null>(null);
  const { save, saving, problem, clear } = useSave(CHANGE_FISH_TOGETHER);

  const look = async (choice: Choice, act: FishActInput): Promise<void> => {
    setAsking(true);
    setAskProblem(null);
    clear();
    const answer = await lookAt(client, choice, act);
    setAsking(false);
    if (answer !== null && 'code' in answer) setAskProblem(answer);
    else setLooked(answer);
  };

  const keep = async (): Promise<FishAct | null> =>
    looked === null ? null : ((await save({ input: looked.input }))?.changeFishTogether ?? null);

  return { look, looked, back: () => setLooked(null), asking, askProblem, keep, saving, problem };
}
