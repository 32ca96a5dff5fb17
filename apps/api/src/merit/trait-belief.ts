import { errorsTogether, type SolvedModel } from '@linewright/merit';
import type { SharesAnswer } from './merit-answer.js';
import type { MeritTask } from './merit-task.js';
import { solvedAtShares } from './run-merit.js';
import { scoresOfTask } from './scores-of-task.js';

/** What is believed of a trait in some fish, at the mean shares of its variance; in the trait's unit and its square. */
export interface TraitBelief {
  readonly value: Float64Array;
  /** Covariances of the errors, fish x fish. */
  readonly error: Float64Array;
  /** Mean score of what was scored, less the breeding values of those fish: what a breeding value of 0 scores. */
  readonly level: number;
  readonly additive: number;
  readonly commonBrood: number;
  readonly residual: number;
}

const BROOD = 'brood';

/** Breeding values of fish with all their errors, and how the trait is inherited. */
export const beliefOf = (
  task: MeritTask,
  shares: SharesAnswer,
  fish: readonly number[],
): TraitBelief => {
  const solved = solvedAtShares(scoresOfTask(task), shares);
  const variance = (term: number): number => solved.variances.random[term]![0]![0]!;
  const others = shares.others.map(({ name }, k) => ({ name, variance: variance(k + 1) }));
  const sum = (list: readonly { readonly variance: number }[]): number =>
    list.reduce((total, one) => total + one.variance, 0);
  return {
    value: Float64Array.from(fish, (index) => valueOf(solved, index)),
    error: errorsTogether(solved, fish),
    level: levelOf(task, solved),
    additive: variance(0),
    commonBrood: sum(others.filter(({ name }) => name === BROOD)),
    residual: solved.variances.residual[0]![0]! + sum(others.filter(({ name }) => name !== BROOD)),
  };
};

const valueOf = ({ equations, solution }: SolvedModel, fish: number): number =>
  solution[equations.termEquation[0]![fish]!]!;

const levelOf = ({ fish, values }: MeritTask, solved: SolvedModel): number => {
  let sum = 0;
  fish.forEach((index, row) => (sum += values[row]! - valueOf(solved, index)));
  return sum / fish.length;
};
