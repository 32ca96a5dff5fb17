import { Injectable, Logger, type OnApplicationShutdown } from '@nestjs/common';
import { ComputationsService } from '../jobs/computations.service.js';
import { LastUsed } from '../jobs/last-used.js';
import { threadFile, WorkThread } from '../jobs/thread.js';
import { buildTask } from './build-task.js';
import { looksBefore, scoresMore, type TaskWithLooks, withScoresMore } from './last-solution.js';
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
/** Stocks of answers that are kept, the last used. */
const MOST_ANSWERED = 4;
const workerFile = threadFile('ready-worker.js');

/** An answer made from the last one: its values hold some scores more, its heritability does not. Or why there is none. */
export type FromLast =
  | { readonly answer: MeritAnswer; readonly scoresMore: number; readonly whyNot: null }
  | { readonly answer: null; readonly scoresMore: null; readonly whyNot: string };

const not = (whyNot: string): FromLast => ({ answer: null, scoresMore: null, whyNot });

const MORE_CHANGED = `Other records that these figures rest on changed since, or more than ${MOST_MORE} scores came.`;
const NOT_SEEN = 'It is a grade that no fish had before.';

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
  /** Stocks of answers that were shown, by their key. */
  private readonly answered = new LastUsed<TraitStock>(MOST_ANSWERED);
  private thread: WorkThread | null = null;
  private ending = false;
  /** Without the thread's program it is worked out in the process itself. */
  private readonly own = new ReadySolutions();

  constructor(private readonly computations: ComputationsService) {}

  /** Null where there is no stored answer at all, or the last has no values. */
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
    this.answered.keep(key, stock);
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
      const before = this.stockBefore(stock, key, more);
      if (before === null) continue;
      const { scores, whyNot } = scoresMore(before, stock);
      if (scores === null) return not(whyNot);
      const answer = await last.of(key);
      if (answer === null || !isMovable(answer)) return null;
      const moved = await this.ask({ key, from: readyFrom(before.task, answer), scores });
      if (moved === null || moved === 'task') return not(NOT_SEEN);
      return {
        answer: withScoresMore(answer, moved, stock.task),
        ...{ scoresMore: more, whyNot: null },
      };
    }
    return states.length === 0 ? null : not(MORE_CHANGED);
  }

  /** The stock without the looks recorded last, where it is the one of the key. */
  private stockBefore(stock: TraitStock, key: string, more: number): TaskWithLooks | null {
    const answered = stock.grownFrom.includes(key) ? this.answered.get(key) : undefined;
    if (answered !== undefined) return answered;
    const taken = looksTaken(looksBefore(stock.looks, more));
    const before = { ...buildTask({ ...stock, ...taken }), looksTaken: taken.looks };
    return isSameModel(key, keyOf(before, stock.pedigree)) ? before : null;
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
