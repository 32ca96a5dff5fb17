import { errorsTogether, type SolvedModel, writtenModel } from '@linewright/merit';
import type { ModelAnswer, SharesAnswer } from './merit-answer.js';
import type { MeritTask } from './merit-task.js';
import { orRefusal, solvedAtShares, varianceOf } from './linear-model.js';
import { scoresOfTask } from './scores-of-task.js';
import { type TraitFigures, traitFigures } from './trait-figures.js';

/** What is believed of a trait in some fish, at the mean shares of its variance; in the trait's unit and its square. */
export interface TraitBelief extends TraitFigures {
  readonly value: Float64Array;
  /** Covariances of the errors, fish x fish. */
  readonly error: Float64Array;
}

/** What a belief is made from. It can pass between threads. */
export interface BeliefTask {
  readonly task: MeritTask;
  /** How the trait's variance is shared out; null while its scores have not told it. */
  readonly model: Pick<ModelAnswer, 'shares' | 'variance'> | null;
  readonly fish: readonly number[];
  /** Scored fish by which it is told where the line stands. */
  readonly level: readonly number[];
}

/** Of several traits, one after another; null where nothing can be solved. */
export const beliefsOf = (tasks: readonly BeliefTask[]): (TraitBelief | null)[] =>
  tasks.map(({ task, model, fish, level }) =>
    model === null ? usualBeliefOf(task, fish, level) : beliefOf(task, model, fish, level),
  );

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
): TraitBelief =>
  beliefIn(
    solvedAtShares(writtenModel(scoresOfTask(task)), model.shares),
    { task, ...model },
    fish,
    levelFish,
  );

/** Share of a trait's variance that is taken for inherited until its scores were worked out, in hundredths of it. */
const USUAL_INHERITED = 28;
/** The same of what a brood, a place or each look shares: a guide of our own, without a source. */
const USUAL_OTHER = 5;

/**
 * The same before the scores have told how much is inherited: at 28 % (length of common carp: Vandeputte M et al. (2008) Aquaculture
 * 277:7-13, abstract read), with the scores as they are. Null where nothing can be solved.
 *
 * Cost: one solution of the equations, where {@link beliefOf} follows hundreds.
 */
const usualBeliefOf = (
  task: MeritTask,
  fish: readonly number[],
  levelFish: readonly number[],
): TraitBelief | null =>
  orRefusal(() => {
    const written = writtenModel(scoresOfTask(task));
    const shares = usualShares(task);
    const solved = solvedAtShares(written, shares);
    return beliefIn(solved, { task, shares, variance: varianceOf(solved) }, fish, levelFish);
  }).answer;

const usualShares = ({ looks, shared }: MeritTask): SharesAnswer => {
  const names = [...(looks ? ['looks'] : []), ...shared.map(({ name }) => name)];
  const others = names.map((name) => ({ name, share: USUAL_OTHER / 100 }));
  const heritability = USUAL_INHERITED / 100;
  return {
    ...{ heritability, others },
    residual: 1 - heritability - others.reduce((sum, { share }) => sum + share, 0),
  };
};

interface AtShares extends Pick<ModelAnswer, 'shares' | 'variance'> {
  readonly task: MeritTask;
}

const beliefIn = (
  solved: SolvedModel,
  { task, ...model }: AtShares,
  fish: readonly number[],
  levelFish: readonly number[],
): TraitBelief => ({
  value: Float64Array.from(fish, (index) => valueOf(solved, index)),
  error: errorsTogether(solved, fish),
  ...traitFigures(task, model, (index) => valueOf(solved, index), levelFish),
});

const valueOf = ({ equations, solution }: SolvedModel, fish: number): number =>
  solution[equations.termEquation[0]![fish]!]!;
