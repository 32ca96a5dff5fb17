import { Injectable, Logger, type OnApplicationShutdown } from '@nestjs/common';
import { ComputationsService } from '../jobs/computations.service.js';
import { threadFile, WorkThread } from '../jobs/thread.js';
import { buildTask } from './build-task.js';
import { looksBefore, scoresMore, withScoresMore } from './last-solution.js';
import { looksTaken } from './looks-taken.js';
import type { MeritAnswer } from './merit-answer.js';
import { type AskedOfReady, type ReadyAnswer, ReadySolutions } from './ready-solutions.js';
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
    const { shares } = movable(answer) ?? {};
    if (shares === undefined || this.madeReady.has(stock)) return;
    this.madeReady.add(stock);
    this.ask({ key, shares, task, scores: [] }).catch((error: Error) => this.failed(error));
  }

  async onApplicationShutdown(): Promise<void> {
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
      const linear = answer === null ? null : movable(answer);
      if (answer === null || linear === null || scores === null) return null;
      const { shares } = linear;
      const moved = await this.ask({ key, shares, task: before.task, scores });
      if (moved === null || moved === 'task') return null;
      return { answer: withScoresMore(answer, linear, moved, stock.task), scoresMore: more };
    }
    return null;
  }

  /** The task is sent only where it is needed: it is large. */
  private async ask(asked: AskedOfReady): Promise<ReadyAnswer> {
    if (workerFile === undefined) return this.own.moved(asked);
    if (this.thread === null || this.thread.ended) this.thread = new WorkThread(workerFile);
    const { thread } = this;
    const answer = await thread.ask<ReadyAnswer>({ ...asked, task: null });
    return answer === 'task' ? thread.ask<ReadyAnswer>(asked) : answer;
  }

  private failed(error: Error): null {
    this.log.error(error.stack ?? error.message);
    return null;
  }
}

/** The model whose values move with a score: that of numbers, where it is shown and was solved whole. */
const movable = ({ shown, linear, wholeStock }: MeritAnswer): MeritAnswer['linear'] =>
  shown === 'linear' && wholeStock ? linear : null;
