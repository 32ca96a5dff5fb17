import { HeredityError } from '@linewright/heredity';
import { Inject, Injectable } from '@nestjs/common';
import type { Config } from '../config/config.js';
import { CONFIG } from '../config/config.token.js';
import type { ComputationRow } from '../stock/rows/computation.entity.js';
import {
  ComputationsService,
  EvidenceMoved,
  type Wanted,
  type Watcher,
} from '../jobs/computations.service.js';
import { EvidenceService } from './evidence.service.js';
import type { LocusEvidence, StockEvidence } from './evidence.js';
import type { CarrierAnswer } from './task.js';
import type { Ask, CarrierTask, PreparedTask } from './carrier-task.js';
import { TaskRunner } from './task-runner.js';

const KIND = 'carriers';
/** What a model that is ready answers at once. */
const FROM_A_READY_MODEL: readonly Ask['kind'][] = ['fish', 'pair', 'sole', 'together'];
/** Answers kept in memory, of loci whose records are still as they were. */
const MOST_HELD = 400;

export type Answered =
  | { readonly answer: CarrierAnswer; readonly waiting: null }
  | { readonly answer: null; readonly waiting: ComputationRow };

/**
 * Answers at once for a small stock; for a large one through a long computation that all processes share.
 *
 * An answer belongs to the key of its locus, which names the parentages, the locus, the founders and its records and nothing
 * else: a record at another locus leaves it standing, and any process may use what any other stored under the key.
 */
@Injectable()
export class PosteriorsService {
  private readonly held = new Map<string, Promise<CarrierAnswer>>();
  private heldState = '';

  constructor(
    private readonly evidence: EvidenceService,
    private readonly runner: TaskRunner,
    private readonly computations: ComputationsService,
    @Inject(CONFIG) private readonly config: Config,
  ) {
    computations.register(KIND, (subject, key, watcher) => this.workOut(subject, key, watcher));
  }

  async ask(
    stock: StockEvidence,
    locus: LocusEvidence,
    question: Ask,
    by: string,
  ): Promise<Answered> {
    if (!this.isLong(stock)) {
      return { answer: await this.atOnce(stock, locus, question), waiting: null };
    }
    const answer = (await this.stored(locus, question)) ?? (await this.prepared(locus, question));
    if (answer !== null) return { answer, waiting: null };
    return { answer: null, waiting: await this.computations.want(wantedOf(locus, question), by) };
  }

  /**
   * All fish of the stock are worked out together and kept. Until that is done for the records as they now are, one fish is
   * answered from a model that has only a few records to take in, if this process has one ready. Where all together had to
   * be sampled, a small stock is tried again for the one fish, which may be exact.
   */
  async ofFish(
    stock: StockEvidence,
    locus: LocusEvidence,
    fishId: string,
    by: string,
  ): Promise<Answered> {
    const one: Ask = { kind: 'fish', fish: [fishId] };
    if (this.isLong(stock)) {
      const answer =
        (await this.stored(locus, { kind: 'all' })) ?? (await this.prepared(locus, one));
      return answer === null
        ? this.ask(stock, locus, { kind: 'all' }, by)
        : { answer, waiting: null };
    }
    const all = await this.atOnce(stock, locus, { kind: 'all' });
    if (all.method?.kind !== 'sampled') return { answer: all, waiting: null };
    const alone = await this.atOnce(stock, locus, one);
    return { answer: alone.method?.kind === 'exact' ? alone : all, waiting: null };
  }

  /** Whether questions about a stock become long computations. */
  isLong(stock: StockEvidence): boolean {
    return stock.pedigree.size >= this.config.longFromFish;
  }

  private async stored(locus: LocusEvidence, question: Ask): Promise<CarrierAnswer | null> {
    return (await this.computations.answer(wantedOf(locus, question))) as CarrierAnswer | null;
  }

  /** Reading out all fish takes long even from a model that is ready: that stays a long computation. */
  private async prepared(locus: LocusEvidence, question: Ask): Promise<CarrierAnswer | null> {
    if (!FROM_A_READY_MODEL.includes(question.kind)) return null;
    try {
      return await this.runner.runPrepared(preparedTaskOf(locus, question));
    } catch (error) {
      // The thread was given up in between: the question is asked in the ordinary way.
      if (error instanceof HeredityError && error.code === 'CANCELLED') return null;
      throw error;
    }
  }

  private atOnce(
    stock: StockEvidence,
    locus: LocusEvidence,
    question: Ask,
  ): Promise<CarrierAnswer> {
    this.forgetOthers(stock);
    const subject = `${locus.key} ${JSON.stringify(question)}`;
    const standing = this.held.get(subject);
    if (standing !== undefined) return standing;
    const answer = this.runner.run(taskOf(stock, locus, question));
    this.held.set(subject, answer);
    answer.catch(() => this.held.delete(subject));
    return answer;
  }

  private forgetOthers(stock: StockEvidence): void {
    if (this.held.size > MOST_HELD) this.held.clear();
    if (this.heldState === stock.state) return;
    this.heldState = stock.state;
    const current = new Set([...stock.byLocus.values()].map((one) => one.key));
    for (const subject of this.held.keys()) {
      if (!current.has(subject.split(' ', 1)[0] ?? '')) this.held.delete(subject);
    }
  }

  private async workOut(subject: string, key: string, watcher: Watcher): Promise<CarrierAnswer> {
    const stock = await this.evidence.stock();
    const [locusId, question] = JSON.parse(subject) as [string, Ask];
    const locus = stock.byLocus.get(locusId);
    if (locus?.key !== key) throw new EvidenceMoved();
    return this.runner.runLong(taskOf(stock, locus, question), watcher);
  }
}

const wantedOf = ({ locus, key }: LocusEvidence, question: Ask): Wanted => ({
  kind: KIND,
  subject: JSON.stringify([locus.id, question]),
  evidence: key,
});

const preparedTaskOf = (
  { base, locus, records, founders }: LocusEvidence,
  ask: Ask,
): PreparedTask => ({
  ...{ base, locus, founders, ask },
  evidence: records.map((one) => one.evidence),
});

/** Hidden parents are fish like others here: what they carry counts. */
const taskOf = (
  { pedigree: { ids, sire, dam } }: StockEvidence,
  locus: LocusEvidence,
  ask: Ask,
): CarrierTask => ({ ...preparedTaskOf(locus, ask), pedigree: { ids, sire, dam } });
