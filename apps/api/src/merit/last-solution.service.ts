import { Injectable, Logger, type OnApplicationShutdown } from '@nestjs/common';
import { ComputationsService } from '../jobs/computations.service.js';
import { threadFile, WorkThread } from '../jobs/thread.js';
import { buildTask } from './build-task.js';
import { looksBefore, scoresMore, withScoresMore } from './last-solution.js';
import { looksTaken } from './looks-taken.js';
import type { MeritAnswer, ModelAnswer } from './merit-answer.js';
import type { MeritTask } from './merit-task.js';
import {
  type AskedOfReady,
  type ReadyAnswer,
  type ReadyFrom,
  ReadySolutions,
} from './ready-solutions.js';
import { isSameModel, keyOf, looksIn } from './task-key.js';
import type { TraitStock } from './trait-records.service.js';

/** Scores more that are taken into the last solution, one after another. */
const MOST_MORE = 12;
const workerFile = threadFile('ready-worker.js');

/** An answer made from the last one: its values hold some scores more, its heritability does not. */
export interface FromLast {
  readonly answer: MeritAnswer;
  readonly scoresMore: number;
}

/** Where the last answers are found. */
export interface LastAnswers {
  readonly kind: string;
  readonly of: (evidence: string) => Promise<MeritAnswer | null>;
}

/** Answers a score more from the last solution, while the whole is worked out anew. */
@Injectable()
export class LastSolutionService implements OnApplicationShutdown {
  private readonly log = new Logger('merit');
  private readonly told = new WeakMap<TraitStock, Promise<FromLast | null>>();
  private readonly madeReady = new WeakSet<TraitStock>();
  private thread: WorkThread | null = null;
  private ending = false;
  /** Without the thread's program it is worked out in the process itself. */
  private readonly own = new ReadySolutions();

  constructor(private readonly computations: ComputationsService) {}

  /** Null where no stored answer is of these records but for the scores recorded last, or they make it another model. */
  of(stock: TraitStock, last: LastAnswers): Promise<FromLast | null> {
    const standing = this.told.get(stock);
    if (standing !== undefined) return standing;
    // The page waits for the whole answer all the same.
    const found = this.find(stock, last).catch((error: Error) => this.failed(error));
    this.told.set(stock, found);
    return found;
  }

  /** Makes the solution of an answer ready for the next score, in the background. */
  makeReady(stock: TraitStock, answer: MeritAnswer): void {
    const { key, task } = stock;
    if (!isMovable(answer) || this.madeReady.has(stock)) return;
    this.madeReady.add(stock);
    this.ask({ key, from: readyFrom(task, answer), scores: [] }).catch((error: Error) =>
      this.failed(error),
    );
  }

  async onApplicationShutdown(): Promise<void> {
    this.ending = true;
    await this.thread?.end();
  }

  private async find(stock: TraitStock, last: LastAnswers): Promise<FromLast | null> {
    const states = await this.computations.answeredStates(last.kind, stock.trait.id);
    for (const key of states) {
      const more = stock.looksTaken.length - looksIn(key);
      if (!(more >= 1 && more <= MOST_MORE)) continue;
      const taken = looksTaken(looksBefore(stock.looks, more));
      const before = { ...buildTask({ ...stock, ...taken }), looksTaken: taken.looks };
      if (!isSameModel(key, keyOf(before, stock.pedigree))) continue;
      const scores = scoresMore(before, stock);
      const answer = scores === null ? null : await last.of(key);
      if (answer === null || scores === null || !isMovable(answer)) return null;
      const moved = await this.ask({ key, from: readyFrom(before.task, answer), scores });
      if (moved === null || moved === 'task') return null;
      return { answer: withScoresMore(answer, moved, stock.task), scoresMore: more };
    }
    return null;
  }

  /** The task is sent only where it is needed: it is large. */
  private async ask(asked: AskedOfReady): Promise<ReadyAnswer> {
    if (workerFile === undefined) return this.own.moved(asked);
    if (this.thread === null || this.thread.ended) this.thread = new WorkThread(workerFile);
    const { thread } = this;
    const answer = await thread.ask<ReadyAnswer>({ ...asked, from: null });
    return answer === 'task' ? thread.ask<ReadyAnswer>(asked) : answer;
  }

  private failed(error: Error): null {
    // What is cut off by the end of the program is no fault.
    if (!this.ending) this.log.error(error.stack ?? error.message);
    return null;
  }
}

/** Whether the answer has the model that it shows. */
const isMovable = ({ shown, linear, threshold }: MeritAnswer): boolean =>
  (shown === 'linear' ? linear : threshold) !== null;

const readyFrom = (task: MeritTask, { linear, threshold }: MeritAnswer): ReadyFrom => {
  const told = (model: ModelAnswer | null) =>
    model === null
      ? null
      : {
          ...{ shares: model.shares, variance: model.variance },
          standardError: model.values.standardError,
        };
  return { task, linear: told(linear), threshold: told(threshold) };
};
