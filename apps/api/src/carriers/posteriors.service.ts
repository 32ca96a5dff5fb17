import { Inject, Injectable } from '@nestjs/common';
import type { Config } from '../config.js';
import { CONFIG } from '../config.token.js';
import type { ComputationRow } from '../jobs/computation.entity.js';
import { ComputationsService, EvidenceMoved, type Watcher } from '../jobs/computations.service.js';
import { EvidenceService } from './evidence.service.js';
import type { LocusEvidence, StockEvidence } from './evidence.js';
import type { Ask, CarrierAnswer, CarrierTask } from './task.js';
import { TaskRunner } from './task-runner.js';

const KIND = 'carriers';
/** Answers kept in memory for the state of the records that was asked about last. */
const MOST_HELD = 400;

export type Answered =
  | { readonly answer: CarrierAnswer; readonly waiting: null }
  | { readonly answer: null; readonly waiting: ComputationRow };

/** Answers at once for a small stock; for a large one through a long computation that all processes share. */
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
    computations.register(KIND, (subject, state, watcher) => this.workOut(subject, state, watcher));
  }

  async ask(
    stock: StockEvidence,
    locus: LocusEvidence,
    question: Ask,
    by: string,
  ): Promise<Answered> {
    const subject = JSON.stringify([locus.locus.id, question]);
    if (!this.isLong(stock)) {
      return { answer: await this.atOnce(stock, locus, question, subject), waiting: null };
    }
    const wanted = { kind: KIND, subject, evidence: stock.state };
    const stored = await this.computations.answer(wanted);
    if (stored !== null) return { answer: stored as CarrierAnswer, waiting: null };
    return { answer: null, waiting: await this.computations.want(wanted, by) };
  }

  /** Whether questions about a stock become long computations. */
  isLong(stock: StockEvidence): boolean {
    return stock.parentages.length >= this.config.longFromFish;
  }

  private atOnce(
    stock: StockEvidence,
    locus: LocusEvidence,
    question: Ask,
    subject: string,
  ): Promise<CarrierAnswer> {
    if (this.heldState !== stock.state || this.held.size > MOST_HELD) {
      this.held.clear();
      this.heldState = stock.state;
    }
    const standing = this.held.get(subject);
    if (standing !== undefined) return standing;
    const answer = this.runner.run(taskOf(stock, locus, question));
    this.held.set(subject, answer);
    answer.catch(() => this.held.delete(subject));
    return answer;
  }

  private async workOut(subject: string, state: string, watcher: Watcher): Promise<CarrierAnswer> {
    const stock = await this.evidence.stock();
    if (stock.state !== state) throw new EvidenceMoved();
    const [locusId, question] = JSON.parse(subject) as [string, Ask];
    const locus = stock.byLocus.get(locusId);
    if (locus === undefined) throw new EvidenceMoved();
    return this.runner.runAlone(taskOf(stock, locus, question), watcher);
  }
}

const taskOf = (
  stock: StockEvidence,
  { locus, records, founders }: LocusEvidence,
  ask: Ask,
): CarrierTask => ({
  parentages: stock.parentages,
  locus,
  founders,
  evidence: records.map((one) => one.evidence),
  ask,
});
