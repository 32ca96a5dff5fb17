import { type PairingFilter, type PairingOrder } from '@linewright/mating';
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import type { Config } from '../config/config.js';
import { CONFIG } from '../config/config.token.js';
import type { SortDirection } from '../graphql/enums.js';
import type { ComputationRow } from '../stock/rows/computation.entity.js';
import { ComputationsService, EvidenceMoved, type Watcher } from '../jobs/computations.service.js';
import { runInThread, threadFile } from '../jobs/thread.js';
import { pedigreePart, stateOfPart } from '../kinship/pedigree-part.js';
import { countAway } from '../stock/candidate-rows.js';
import { type Judged, JudgingService } from './judging.service.js';
import { type PairAnswer, type PairTask, runPairTask } from './pair-task.js';
import type { PairingInput, PairingSortField } from './pairing.inputs.js';

const KIND = 'pairs';
const threadProgram = threadFile('pair-worker.js');

/** Pairs judged within a request at most, a look at one for each wish counted like a pair: some tenth of a second. */
const MOST_AT_ONCE = 50_000;

export interface PairChoice {
  readonly input: PairingInput;
  readonly sort: PairingSortField;
  readonly direction: SortDirection;
}

export interface PairList {
  readonly judged: Judged;
  /** `null` while it is waited for. */
  readonly answer: PairAnswer | null;
  readonly waiting: ComputationRow | null;
  /** Fish in use that are left out because they do not swim here. */
  readonly away: number;
}

/**
 * The pairs of a choice in order: every male by every female, within the request for a stock of ordinary size, through a long
 * computation that all processes share for a large one.
 */
@Injectable()
export class PairListService {
  private readonly answers = new WeakMap<Judged, Map<string, PairAnswer>>();

  constructor(
    private readonly dataSource: DataSource,
    private readonly judging: JudgingService,
    private readonly computations: ComputationsService,
    @Inject(CONFIG) private readonly config: Config,
  ) {
    computations.register(KIND, (subject, state, watcher) => this.workOut(subject, state, watcher));
  }

  async of(choice: PairChoice, by: string): Promise<PairList> {
    const judged = await this.judging.stock(choice.input, by);
    const partners = choice.input.includePartners === true;
    const away = partners
      ? 0
      : await countAway(this.dataSource.manager, choice.input.lineIds ?? null);
    const { waiting: needed } = judged.basis;
    if (needed !== null) return { judged, away, answer: null, waiting: needed };
    const answered = this.answers.get(judged)?.get(orderKey(choice));
    if (answered !== undefined) return { judged, away, answer: answered, waiting: null };
    const task = taskOf(judged, choice);
    if (!this.isLong(judged)) {
      const answer = runPairTask(task);
      this.keep(judged, choice, answer);
      return { judged, away, answer, waiting: null };
    }
    const subject = JSON.stringify([choice, judged.input.asOf]);
    const wanted = { kind: KIND, subject, evidence: stateOf(task) };
    const stored = await this.computations.answer(wanted);
    if (stored !== null) {
      this.keep(judged, choice, stored as PairAnswer);
      return { judged, away, answer: stored as PairAnswer, waiting: null };
    }
    await this.computations.forgetOfBefore(KIND);
    const waiting = await this.computations.want(wanted, by);
    return { judged, away, answer: null, waiting };
  }

  /** Kept with the stock that it was made from, and gone with it. */
  private keep(judged: Judged, choice: PairChoice, answer: PairAnswer): void {
    const known = this.answers.get(judged) ?? new Map<string, PairAnswer>();
    this.answers.set(judged, known.set(orderKey(choice), answer));
  }

  private isLong({ input: { candidates, wanted = [] } }: Judged): boolean {
    const males = candidates.filter(({ sex }) => sex === 'male').length;
    const females = candidates.filter(({ sex }) => sex === 'female').length;
    const looks = males * females * (1 + wanted.length);
    return looks > MOST_AT_ONCE || candidates.length >= this.config.longFromFish;
  }

  private async workOut(subject: string, state: string, watcher: Watcher): Promise<PairAnswer> {
    // The day is the asker's: the thread's machine may be on another one.
    const [choice, asOf] = JSON.parse(subject) as [PairChoice, string];
    const judged = await this.judging.stock(choice.input, KIND, [], asOf);
    const task = taskOf(judged, choice);
    if (judged.basis.waiting !== null || stateOf(task) !== state) throw new EvidenceMoved();
    return threadProgram === undefined
      ? runPairTask(task, watcher.onProgress)
      : runInThread<PairAnswer>(threadProgram, task, watcher);
  }
}

const orderKey = ({ input, sort, direction }: PairChoice): string =>
  JSON.stringify([filterOf(input), input.linesOfPair, sort, direction]);

const filterOf = (input: PairingInput): PairingFilter => ({
  ...(input.sireIds?.length ? { sireIds: input.sireIds } : {}),
  ...(input.damIds?.length ? { damIds: input.damIds } : {}),
  ...(typeof input.maximumInbreeding === 'number' && {
    maximumInbreeding: input.maximumInbreeding,
  }),
  ...(input.linesOfPair === 'WITHIN' && { withinLine: true }),
  ...(!input.includeDiscouraged && { leaveOutFrom: 'stop' as const }),
});

const orderOf = ({ input, sort, direction }: PairChoice): PairingOrder => {
  const by = ({ WORTH: 'worth', INBREEDING: 'inbreeding', SIRE: 'sire', DAM: 'dam' } as const)[
    sort
  ];
  const natural = by === 'worth' ? 'DESC' : 'ASC';
  return {
    by,
    reversed: direction !== natural,
    withinLineFirst: input.linesOfPair === 'WITHIN_FIRST',
  };
};

const taskOf = (
  { input: { pedigree, inbreeding, ...input } }: Judged,
  choice: PairChoice,
): PairTask => {
  const { part, places } = pedigreePart(
    pedigree,
    input.candidates.map(({ id }) => id),
  );
  const behind = new Set(part.ids);
  // Names are said in rows, and rows are made elsewhere.
  const { names: _, ...judged } = input;
  return {
    ...part,
    ...(inbreeding && { inbreeding: Float64Array.from(places, (i) => inbreeding[i]!) }),
    input: {
      ...judged,
      unrelatedOrigin: (judged.unrelatedOrigin ?? []).filter((id) => behind.has(id)),
    },
    filter: filterOf(choice.input),
    order: orderOf(choice),
  };
};

/** Changes with everything that the order is made from. */
const stateOf = ({ input, filter, order, ...part }: PairTask): string =>
  stateOfPart(part, input, filter, order);
