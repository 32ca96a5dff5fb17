import {
  type PairProblem,
  type PairProposal,
  type ProposalQuestion,
  proposePairs,
} from '@linewright/mating';
import loadHighs, { type Highs } from 'highs';

/** What a proposal is made from. It can pass between threads. */
export interface ProposalTask {
  readonly problem: PairProblem;
  readonly question: Omit<ProposalQuestion, 'secondsLeft'>;
  /** Seconds that may be taken; what is not finished then is told with its gap. */
  readonly seconds: number;
}

// The package's types stand for its other form: the module itself is the function.
const load = loadHighs as unknown as () => Promise<Highs>;
let solver: Promise<Highs> | null = null;

/** Loads the solver once a thread. */
const highs = (): Promise<Highs> => (solver ??= load());

export const propose = async ({
  problem,
  question,
  seconds,
}: ProposalTask): Promise<PairProposal> => {
  const end = performance.now() + seconds * 1000;
  const secondsLeft = (): number => (end - performance.now()) / 1000;
  try {
    return proposePairs(await highs(), problem, { ...question, secondsLeft });
  } catch (error) {
    // What it failed at may have left it in no state to go on.
    solver = null;
    throw error;
  }
};
