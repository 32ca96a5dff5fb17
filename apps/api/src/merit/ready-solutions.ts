import {
  keptByIteration,
  type KeptModel,
  KeptSolution,
  MeritError,
  moreClasses,
  type OneScore,
  type SolvedModel,
  solveThreshold,
  type ThresholdModel,
  type ThresholdSolution,
  writtenModel,
} from '@linewright/merit';
import { LastUsed } from '../jobs/last-used.js';
import type { Moved, ValuesMoved } from './last-solution.js';
import { ratiosOf, solvedAtShares } from './linear-model.js';
import type { SharesAnswer } from './merit-answer.js';
import type { MeritTask } from './merit-task.js';
import { scoresOfTask } from './scores-of-task.js';
import { classesOf, thresholdAtShares } from './threshold-model.js';

/** Solutions kept, the last used: one of 10,000 fish takes some 20 MB. */
const MOST_READY = 4;
/** Numbers in a factor beyond which a score more is solved by iteration: 40 MB. */
const MOST_ENTRIES = 5e6;

/** What the last answer told of one of its models. */
export interface ReadyModel {
  readonly shares: SharesAnswer;
  /** Of all terms together. */
  readonly variance: number;
  /** Of breeding values, by place in the pedigree. */
  readonly standardError: readonly number[];
}

/** The records and the last answer that a solution is made ready from. */
export interface ReadyFrom {
  readonly task: MeritTask;
  readonly linear: ReadyModel | null;
  readonly threshold: ReadyModel | null;
}

/** What is asked: what scores more do to the solution of a key. Without records only a solution that is ready answers. */
export interface AskedOfReady {
  readonly key: string;
  readonly from: ReadyFrom | null;
  readonly scores: readonly OneScore[];
}

/** `task`: nothing is ready, and the records are needed. Null: these scores are not answered from a solution. */
export type ReadyAnswer = Moved | 'task' | null;

interface ReadyThreshold {
  readonly model: ThresholdModel;
  readonly solved: ThresholdSolution;
  /** Grades of the classes. */
  readonly classes: readonly number[];
  /** From the scale on which the residual is 1 to that of the answer. */
  readonly unit: number;
}

interface Ready {
  readonly linear: SolvedModel | KeptModel | null;
  readonly threshold: ReadyThreshold | null;
}

/**
 * Solutions kept ready, each at the mean shares of an answer. A shortcut and nothing else: whoever has none makes it from the records and the
 * answer and comes to the same.
 */
export class ReadySolutions {
  private readonly ready = new LastUsed<Ready>(MOST_READY);

  constructor(private readonly mostEntries = MOST_ENTRIES) {}

  /** Cost: a solution by the factor, or an iteration, a score; first the factor itself where it is not ready. */
  moved({ key, from, scores }: AskedOfReady): ReadyAnswer {
    try {
      const standing = this.ready.get(key);
      if (standing === undefined && from === null) return 'task';
      const ready = standing ?? this.solve(key, from!);
      return {
        linear: ready.linear === null ? null : movedBy(ready.linear, scores),
        threshold: ready.threshold === null ? null : movedInClasses(ready.threshold, scores),
      };
    } catch (error) {
      if (error instanceof MeritError) return null;
      throw error;
    }
  }

  private solve(key: string, { task, linear, threshold }: ReadyFrom): Ready {
    const ready = {
      linear: linear === null ? null : this.linear(task, linear),
      threshold: threshold === null ? null : readyThreshold(task, threshold),
    };
    this.ready.keep(key, ready);
    return ready;
  }

  private linear(task: MeritTask, told: ReadyModel): SolvedModel | KeptModel {
    const { shares, variance, standardError } = told;
    const written = writtenModel(scoresOfTask(task));
    const { animal, equations } = written;
    if (equations.affordable(this.mostEntries) !== null) return solvedAtShares(written, shares);
    const residual = variance * shares.residual;
    return keptByIteration(animal, equations, {
      ratios: ratiosOf(shares),
      residual,
      standardError,
    });
  }
}

const readyThreshold = (task: MeritTask, { shares }: ReadyModel): ReadyThreshold => {
  const model = thresholdAtShares(task, scoresOfTask(task), shares);
  const solved = solveThreshold(model);
  // Asked for here, so that the first score does not wait for them.
  void solved.errorVariances;
  return { model, solved, classes: classesOf(task), unit: Math.sqrt(shares.residual) };
};

const movedBy = (solved: SolvedModel | KeptModel, scores: readonly OneScore[]): ValuesMoved => {
  const kept = new KeptSolution(solved);
  const before = kept.values;
  for (const score of scores) kept.add(score);
  const after = kept.values;
  return {
    value: after.value.map((value, i) => value - before.value[i]!),
    error: after.standardError.map((error, i) => left(error, before.standardError[i]!)),
  };
};

/** @throws MeritError MERIT_OUT_OF_RANGE for a grade that was not seen before. */
const movedInClasses = (
  { model, solved, classes, unit }: ReadyThreshold,
  scores: readonly OneScore[],
): ValuesMoved => {
  const looks = scores.map((score) => ({ ...score, value: classes.indexOf(score.value) }));
  if (looks.some(({ value }) => value < 0))
    throw new MeritError('MERIT_OUT_OF_RANGE', 'A grade that was not seen before.');
  const { value, errorVariance } = moreClasses(model, solved, looks);
  const first = solved.equations.firstOfTerm[0]!;
  return {
    value: value.map((now, i) => unit * (now - solved.solution[first + i]!)),
    error: errorVariance.map((now, i) => {
      const was = solved.errorVariances[first + i]!;
      return left(Math.sqrt(Math.max(0, now)), Math.sqrt(was));
    }),
  };
};

const left = (now: number, was: number): number => (was > 0 ? now / was : 1);
