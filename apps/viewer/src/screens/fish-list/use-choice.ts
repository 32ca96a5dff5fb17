import { useCallback, useRef, useState } from 'react';
import { useClient } from 'urql';
import { FISH_TO_CHOOSE } from '../../api/fish-acts.js';
import type { FishRow } from '../../api/fish.js';
import type { VariablesOf } from '../../api/graphql.js';
import { problemFrom, type Problem } from '../../api/problem.js';
import type { RowChoice } from '../../components/choose-row.js';
import { useSession } from '../../session/session-context.js';
import { keepChoice, keptChoice } from './choice-memory.js';
import { rangeOf, withFish, withoutFish, type Choice, type ChosenFish } from './choice.js';

export interface FishChoice {
  choosing: boolean;
  setChoosing: (choosing: boolean) => void;
  choice: Choice;
  /** Fish that the last step would have chosen too, beyond the most. */
  beyond: number;
  problem: Problem | null;
  /** Chooses all that fit a filter, in the order of the list. */
  chooseAll: (which: VariablesOf<typeof FISH_TO_CHOOSE>) => Promise<void>;
  leaveOut: (ids: readonly string[]) => void;
  clear: () => void;
  rowsOf: (rows: readonly FishRow[]) => RowChoice<FishRow>;
}

/** The choice as this tab keeps it. */
function useKeptChoice() {
  const personId = useSession().person?.id ?? '';
  const [choice, setChoice] = useState<Choice>(() => keptChoice(personId));
  const [beyond, setBeyond] = useState(0);
  const keep = useCallback(
    (next: Choice, left = 0) => {
      setChoice(next);
      setBeyond(left);
      keepChoice(personId, next);
    },
    [personId],
  );
  return { choice, beyond, keep };
}

const isInForce = ({ withdrawn }: { readonly withdrawn: unknown }): boolean => withdrawn === null;

/** All that fit a filter, as far as one act takes; `unseen` counts the rest. */
function useAllThatFit(add: (more: readonly ChosenFish[], unseen: number) => void) {
  const client = useClient();
  const [problem, setProblem] = useState<Problem | null>(null);
  const chooseAll: FishChoice['chooseAll'] = async (which) => {
    setProblem(null);
    const { data, error } = await client
      .query(FISH_TO_CHOOSE, which, { requestPolicy: 'network-only' })
      .toPromise();
    if (data === undefined) {
      if (error !== undefined) setProblem(problemFrom(error));
      return;
    }
    const { edges, totalCount } = data.fishList;
    add(edges.map(({ node }) => node).filter(isInForce), totalCount - edges.length);
  };
  return { chooseAll, problem };
}

/** Which fish of the list are chosen: they stay chosen while the list is filtered, sorted, scrolled or left. */
export function useFishChoice(): FishChoice {
  const { choice, beyond, keep } = useKeptChoice();
  const [choosing, setChoosing] = useState(choice.length > 0);
  const last = useRef<string | null>(null);
  const add = (more: readonly ChosenFish[], unseen = 0) => {
    const { choice: next, beyond: left } = withFish(choice, more);
    keep(next, left + unseen);
  };
  const leaveOut = (ids: readonly string[]) => keep(withoutFish(choice, ids));
  const chosen = new Set(choice.map(({ id }) => id));
  const rowsOf = (rows: readonly FishRow[]): RowChoice<FishRow> => ({
    isChosen: ({ id }) => chosen.has(id),
    canChoose: isInForce,
    label: ({ tag, withdrawn }) =>
      withdrawn === null ? `Choose ${tag}` : `${tag} was withdrawn and cannot be chosen`,
    onChoose: (row, wanted, toHere) => {
      const range = (toHere ? rangeOf(rows, last.current, row) : [row]).filter(isInForce);
      last.current = row.id;
      if (wanted) add(range);
      else leaveOut(range.map(({ id }) => id));
    },
  });
  const all = useAllThatFit(add);
  return { choosing, setChoosing, choice, beyond, ...all, leaveOut, clear: () => keep([]), rowsOf };
}
