import {
  KeptSolution,
  MeritError,
  type OneScore,
  type SolvedModel,
  writtenModel,
} from '@linewright/merit';
import { LastUsed } from '../jobs/last-used.js';
import type { Moved } from './last-solution.js';
import { solvedAtShares } from './linear-model.js';
import type { SharesAnswer } from './merit-answer.js';
import type { MeritTask } from './merit-task.js';
import { scoresOfTask } from './scores-of-task.js';

/** Solutions kept, the last used: one of 10,000 fish takes some 20 MB. */
const MOST_READY = 4;
/** Numbers in a factor beyond which none is kept: 40 MB. */
const MOST_ENTRIES = 5e6;

/** What is asked: what scores more do to the solution of a key. Without a task only a solution that is ready answers. */
export interface AskedOfReady {
  readonly key: string;
  readonly shares: SharesAnswer;
  readonly task: MeritTask | null;
  readonly scores: readonly OneScore[];
}

/** `task`: nothing is ready, and the task is needed. Null: these scores are not answered from a solution. */
export type ReadyAnswer = Moved | 'task' | null;

/**
 * Solutions kept ready, each at the mean shares of an answer. A shortcut and nothing else: whoever has none makes it from the task and comes to
 * the same.
 */
export class ReadySolutions {
  private readonly ready = new LastUsed<SolvedModel>(MOST_READY);

  /** Cost: a solution by the factor a score; first the factor itself where it is not ready. */
  moved({ key, shares, task, scores }: AskedOfReady): ReadyAnswer {
    try {
      const solved =
        this.ready.get(key) ?? (task === null ? 'task' : this.solve(key, task, shares));
      return solved === null || solved === 'task' ? solved : movedBy(solved, scores);
    } catch (error) {
      if (error instanceof MeritError) return null;
      throw error;
    }
  }

  private solve(key: string, task: MeritTask, shares: SharesAnswer): SolvedModel | null {
    const written = writtenModel(scoresOfTask(task));
    if (written.equations.affordable(MOST_ENTRIES) === null) return null;
    const solved = solvedAtShares(written, shares);
    this.ready.keep(key, solved);
    return solved;
  }
}

const movedBy = (solved: SolvedModel, scores: readonly OneScore[]): Moved => {
  const kept = new KeptSolution(solved);
  const before = kept.values;
  for (const score of scores) kept.add(score);
  const after = kept.values;
  return {
    value: after.value.map((value, i) => value - before.value[i]!),
    error: after.standardError.map((error, i) => {
      const was = before.standardError[i]!;
      return was > 0 ? error / was : 1;
    }),
  };
};
