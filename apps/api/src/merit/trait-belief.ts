import { errorsTogether, type SolvedModel, writtenModel } from '@linewright/merit';
import type { ModelAnswer } from './merit-answer.js';
import type { MeritTask } from './merit-task.js';
import { solvedAtShares } from './linear-model.js';
import { scoresOfTask } from './scores-of-task.js';
import { type TraitFigures, traitFigures } from './trait-figures.js';

/** What is believed of a trait in some fish, at the mean shares of its variance; in the trait's unit and its square. */
export interface TraitBelief extends TraitFigures {
  readonly value: Float64Array;
  /** Covariances of the errors, fish x fish. */
  readonly error: Float64Array;
}

/**
 * Breeding values of fish with all their errors, and how the trait is inherited.
 *
 * @param levelFish scored fish by which it is told where the line stands.
 */
export const beliefOf = (
  task: MeritTask,
  model: Pick<ModelAnswer, 'shares' | 'variance'>,
  fish: readonly number[],
  levelFish: readonly number[],
): TraitBelief => {
  const solved = solvedAtShares(writtenModel(scoresOfTask(task)), model.shares);
  return {
    value: Float64Array.from(fish, (index) => valueOf(solved, index)),
    error: errorsTogether(solved, fish),
    ...traitFigures(task, model, (index) => valueOf(solved, index), levelFish),
  };
};

const valueOf = ({ equations, solution }: SolvedModel, fish: number): number =>
  solution[equations.termEquation[0]![fish]!]!;
