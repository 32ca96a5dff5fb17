import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import type { Config } from '../config/config.js';
import { CONFIG } from '../config/config.token.js';
import { besideTheLoop } from '../jobs/beside.js';
import {
  ComputationsService,
  EvidenceMoved,
  type Wanted,
  type Watcher,
} from '../jobs/computations.service.js';
import { KeptAnswers } from '../jobs/kept-answers.js';
import { runInThread, threadFile } from '../jobs/thread.js';
import { namedFish } from '../kinship/named-fish.js';
import type { NamedFishModel } from '../shapes/named-fish.model.js';
import type { ComputationRow } from '../stock/rows/computation.entity.js';
import { type FromLast, LastSolutionService } from './last-solution.service.js';
import type { MeritAnswer } from './merit-answer.js';
import { meritProgram } from './merit-programs.js';
import { runMerit } from './run-merit.js';
import { workOfTask } from './scores-of-task.js';
import { type TraitStock, TraitRecordsService } from './trait-records.service.js';

const KIND = 'breeding values';
const threadProgram = threadFile('merit-worker.js');
/** Fish times points of the grids that are gone over while one waits: about a second. */
const MOST_AT_ONCE = 150_000;
/** Answers kept in memory, the last asked for. */
const MOST_HELD = 40;

export interface TraitStanding {
  readonly stock: TraitStock;
  /** Null while it is waited for. */
  readonly answer: MeritAnswer | null;
  readonly waiting: ComputationRow | null;
  /** While it is waited for: what the last solution says with the newest scores taken in, where it can be told. */
  readonly fromLast: FromLast | null;
}

/** The answer; while it is waited for, that from the last solution. */
export const answerSoFar = ({ answer, fromLast }: TraitStanding): MeritAnswer | null =>
  answer ?? fromLast?.answer ?? null;

/**
 * A trait's breeding values from the records as they are now: beside the event loop for a stock of ordinary size, through a long
 * computation that all processes share for a large one. An answer belongs to the key of its records and is reckoned once for it.
 */
@Injectable()
export class TraitMeritService {
  private readonly kept: KeptAnswers<MeritAnswer>;

  constructor(
    private readonly dataSource: DataSource,
    private readonly records: TraitRecordsService,
    private readonly last: LastSolutionService,
    computations: ComputationsService,
    @Inject(CONFIG) private readonly config: Config,
  ) {
    this.kept = new KeptAnswers(computations, MOST_HELD);
    computations.register(KIND, (subject, key, watcher) => this.workOut(subject, key, watcher));
  }

  async of(traitId: string, by: string): Promise<TraitStanding> {
    const stock = await this.records.of(traitId);
    const wanted = { kind: KIND, subject: stock.trait.id, evidence: stock.key };
    if (this.isLong(stock)) return this.inTime(stock, wanted, by);
    const work = (): Promise<MeritAnswer> => besideTheLoop(meritProgram, stock.task);
    return {
      stock,
      answer: await this.kept.atOnce(wanted, by, work),
      waiting: null,
      fromLast: null,
    };
  }

  private async inTime(stock: TraitStock, wanted: Wanted, by: string): Promise<TraitStanding> {
    const kept = await this.kept.inTime(wanted, by);
    if (kept.answer !== null) {
      this.last.makeReady(stock, kept.answer);
      return { stock, ...kept, fromLast: null };
    }
    const of = (evidence: string) => this.kept.ifThere({ ...wanted, evidence });
    return { stock, ...kept, fromLast: await this.last.of(stock, { kind: KIND, of }) };
  }

  /** Names of the fish that are worth scoring next. */
  worthNamed(standing: TraitStanding): Promise<Map<string, NamedFishModel>> {
    const { stock } = standing;
    const ids = (answerSoFar(standing)?.worth ?? []).map(({ fish }) => stock.pedigree.ids[fish]!);
    return namedFish(this.dataSource, ids, 'absent');
  }

  isLong({ pedigree, task }: TraitStock): boolean {
    return pedigree.size >= this.config.longFromFish || workOfTask(task) > MOST_AT_ONCE;
  }

  private async workOut(traitId: string, key: string, watcher: Watcher): Promise<MeritAnswer> {
    const stock = await this.records.of(traitId);
    if (stock.key !== key) throw new EvidenceMoved();
    return threadProgram === undefined
      ? runMerit(stock.task, watcher.onProgress)
      : runInThread<MeritAnswer>(threadProgram, stock.task, watcher);
  }
}
