import {
  type BroodOutlook,
  broodOutlooks,
  dayForPairs,
  hasAims,
  isOutsideDays,
  judgedPairs,
  type JudgedPairs,
  type LinePurpose,
  MatingError,
  type PairIds,
  type PairProposal,
} from '@linewright/mating';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { RequestError } from '../errors/request-error.js';
import { besideTheLoop } from '../jobs/beside.js';
import { ComputationsService } from '../jobs/computations.service.js';
import { type Judged, JudgingService } from '../pairing/judging.service.js';
import { purposeOfLine } from '../stock/purpose-rows.js';
import { RecordStore } from '../stock/record-store.js';
import { lineRecord } from '../stock/record-types.js';
import { roundsOfPairs, type StandingPair, standingPairsOfLine } from '../stock/round-rows.js';
import type { ComputationRow } from '../stock/rows/computation.entity.js';
import type { RoundRow } from '../stock/rows/round.entity.js';
import { type ProposalDifferences, proposalDifferences } from './proposal-differences.js';
import { proposalProgram } from './proposal-programs.js';
import {
  broodsLeft,
  proposalTask,
  standingPlaces,
  stateOfProposal,
  subjectOfProposal,
  wishesOf,
} from './proposal-task.js';
import type { ProposalTask } from './propose.js';
import type { PairProposalInput } from './rounds.inputs.js';

const KIND = 'proposal';
/** Pairs put together for one proposal at most: a line's candidates are judged while others wait. */
const MOST_PAIRS = 50_000;

export interface Proposed {
  readonly version: number;
  readonly purpose: LinePurpose;
  /** Day that the fish are judged for. */
  readonly day: string;
  /** Broods to make beside the pairs that stand. */
  readonly broods: number;
  readonly hasAims: boolean;
  readonly stock: JudgedPairs;
  /** Pairs that are planned already, and what those are planned by whose fish are still candidates. */
  readonly standing: readonly StandingPair[];
  readonly rounds: readonly RoundRow[];
  readonly standingOutlooks: readonly BroodOutlook[];
  /** A long computation that figures are waited from. */
  readonly waiting: ComputationRow | null;
  /** `null` where nothing can be proposed; then `problem` says why. */
  readonly proposal: PairProposal | null;
  /** Of each pair proposed. */
  readonly outlooks: readonly BroodOutlook[];
  readonly differences: ProposalDifferences | null;
  readonly problem: string | null;
}

/** Proposes the pairs that a line can make now, beside those that are planned already. What was proposed is kept until something changes. */
@Injectable()
export class ProposalService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly judging: JudgingService,
    private readonly computations: ComputationsService,
    private readonly clock: Clock,
  ) {}

  /** @throws RequestError `VALIDATION` for wishes that cannot be; `NOT_FOUND` for a line that is not there. */
  async of(input: PairProposalInput, by: string): Promise<Proposed> {
    const { manager } = this.dataSource;
    const line = await this.records.find(manager, lineRecord, input.lineId);
    const said = await purposeOfLine(manager, line.id);
    const day = dayForPairs(said.content, this.clock.today());
    const judged = await this.judging.stock({ lineIds: [line.id] }, by, [], day);
    const standing = await standingPairsOfLine(manager, line.id);
    const { version, purpose, waiting } = judged.basis;
    const stock = judgedPairs(judged.input);
    const places = standingPlaces(stock, standing);
    const base: Proposed = {
      ...{ version, purpose, day, stock, standing, waiting },
      rounds: await roundsOfPairs(manager, standing),
      broods: broodsLeft(input.broods, purpose, standing),
      hasAims: hasAims(purpose),
      standingOutlooks: broodOutlooks(judged.input, places.map(idsIn(stock))),
      ...{ proposal: null, outlooks: [], differences: null },
      problem: null,
    };
    const problem = whyNothing(base);
    if (problem !== null) return { ...base, problem };
    const wishes = wishesOf(input, stock);
    const kinshipLimit = input.kinshipLimit ?? null;
    const task = proposalTask({ ...base, standing: places, wishes, kinshipLimit });
    try {
      return { ...base, ...told(judged, stock, await this.proposed(input, task, by)) };
    } catch (error) {
      const outcome = outcomeOf(error);
      if (outcome === null) throw error;
      return { ...base, problem: outcome };
    }
  }

  /** As it was worked out before, where nothing has changed that it rests on. */
  private async proposed(
    input: PairProposalInput,
    task: ProposalTask,
    by: string,
  ): Promise<PairProposal> {
    const evidence = stateOfProposal(task);
    const wanted = { kind: KIND, subject: subjectOfProposal(input), evidence };
    const kept = await this.computations.answer(wanted);
    if (kept !== null) return kept as PairProposal;
    const proposal = await besideTheLoop(proposalProgram, task);
    await this.computations.forgetOfBefore(KIND);
    await this.computations.keep(wanted, proposal, by);
    return proposal;
  }
}

const idsIn =
  ({ males, females }: JudgedPairs) =>
  ([male, female]: readonly [number, number]): PairIds => ({
    sireId: males[male]!,
    damId: females[female]!,
  });

const told = ({ input }: Judged, stock: JudgedPairs, proposal: PairProposal) => {
  const ids = idsIn(stock);
  return {
    proposal,
    outlooks: broodOutlooks(
      input,
      proposal.pairs.map(({ male, female }) => ids([male, female])),
    ),
    differences: proposalDifferences(input, proposal, ids),
  };
};

/** What stands in the way before anything is worked out. */
const whyNothing = (base: Proposed): string | null => {
  const { waiting, broods, standing, stock, purpose, day } = base;
  if (waiting !== null)
    return 'What the fish pass on is still being worked out: come back in a moment.';
  if (isOutsideDays(purpose, day))
    return `The last day for pairs of this round was ${purpose.latest}: give other days in what this line is for.`;
  if (broods === 0)
    return `There is room for no further pair: ${standing.length === 1 ? 'one is' : `${standing.length} are`} planned already.`;
  const { males, females, worth } = stock;
  return worth.length > MOST_PAIRS
    ? `${males.length} males by ${females.length} females are more than ${MOST_PAIRS} pairs: mark as keepers only those that you would breed from.`
    : null;
};

/** What cannot be done with these fish is an answer; everything else is a fault. */
const outcomeOf = (error: unknown): string | null => {
  const known = error instanceof MatingError || error instanceof RequestError;
  const codes = ['MATING_TOO_FEW_FISH', 'MATING_PAIRS_UNREACHABLE', 'MATING_PAIR_NOT_ALLOWED'];
  return known && codes.includes(error.code) ? error.message : null;
};
