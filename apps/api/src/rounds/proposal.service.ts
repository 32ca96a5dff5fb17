import {
  type BroodOutlook,
  broodOutlooks,
  hasAims,
  judgedPairs,
  type JudgedPairs,
  type LinePurpose,
  MatingError,
  type PairProposal,
  type PairWishes,
} from '@linewright/mating';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { fieldError, RequestError } from '../errors/request-error.js';
import { besideTheLoop } from '../jobs/beside.js';
import { JudgingService } from '../pairing/judging.service.js';
import type { ComputationRow } from '../stock/rows/computation.entity.js';
import { RecordStore } from '../stock/record-store.js';
import { lineRecord } from '../stock/record-types.js';
import { proposalProgram } from './proposal-programs.js';
import type { ProposalTask } from './propose.js';
import type { PairOfFishInput, PairProposalInput } from './rounds.inputs.js';

/** Pairs put together for one proposal at most: a line's candidates are judged while others wait. */
const MOST_PAIRS = 50_000;
const MOST_BROODS = 50;
/** Seconds for one proposal; what is open then is told with its gap. */
const SECONDS = 12;

export interface Proposed {
  readonly version: number;
  readonly purpose: LinePurpose;
  readonly broods: number;
  readonly hasAims: boolean;
  readonly stock: JudgedPairs;
  /** A long computation that figures are waited from. */
  readonly waiting: ComputationRow | null;
  /** `null` where nothing can be proposed; then `problem` says why. */
  readonly proposal: PairProposal | null;
  /** Of each pair proposed. */
  readonly outlooks: readonly BroodOutlook[];
  readonly problem: string | null;
}

/** Proposes the pairs of a line's next round. */
@Injectable()
export class ProposalService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly judging: JudgingService,
  ) {}

  /** @throws RequestError `VALIDATION` for wishes that cannot be; `NOT_FOUND` for a line that is not there. */
  async of(input: PairProposalInput, by: string): Promise<Proposed> {
    const line = await this.records.find(this.dataSource.manager, lineRecord, input.lineId);
    const { input: judged, basis } = await this.judging.stock({ lineIds: [line.id] }, by);
    const { version, purpose } = basis;
    const broods = expectBroods(input.broods ?? roomFor(purpose));
    const stock = judgedPairs(judged);
    const base = {
      version,
      purpose,
      broods,
      hasAims: hasAims(purpose),
      stock,
      waiting: basis.waiting,
      outlooks: [],
    };
    if (basis.waiting !== null)
      return {
        ...{ ...base, proposal: null },
        problem: 'What the fish pass on is still being worked out: come back in a moment.',
      };
    const { length } = stock.worth;
    if (length > MOST_PAIRS)
      return {
        ...base,
        ...{ proposal: null },
        problem: `${stock.males.length} males by ${stock.females.length} females are more than ${MOST_PAIRS} pairs: mark as keepers only those that you would breed from.`,
      };
    const task = taskOf(base, wishesOf(input, stock), input.kinshipLimit ?? null);
    try {
      const proposal = await besideTheLoop(proposalProgram, task);
      const pairs = proposal.pairs.map(({ male, female }) => ({
        sireId: stock.males[male]!,
        damId: stock.females[female]!,
      }));
      return { ...base, proposal, outlooks: broodOutlooks(judged, pairs), problem: null };
    } catch (error) {
      const problem = outcomeOf(error);
      if (problem === null) throw error;
      return { ...base, proposal: null, problem };
    }
  }
}

const roomFor = ({ broods, vessels }: LinePurpose): number => Math.min(broods, vessels ?? broods);

const taskOf = (
  { purpose, broods, hasAims, stock }: Pick<Proposed, 'purpose' | 'broods' | 'hasAims' | 'stock'>,
  wishes: PairWishes,
  kinshipLimit: number | null,
): ProposalTask => {
  const limit = kinshipLimit ?? (hasAims ? undefined : ('least' as const));
  // Where nothing is wanted of the young, broods of a smaller F come first among those as little related.
  const worth = hasAims ? stock.worth : lessInbred(stock);
  return {
    problem: {
      ...{ ...stock, worth, broods },
      mostPerFish: purpose.broodsPerFish,
      ceiling: purpose.ceiling,
    },
    question: {
      ...(limit !== undefined && { limit: limit === 1 ? null : limit }),
      ...{ rise: purpose.kinshipRise, wishes },
    },
    seconds: SECONDS,
  };
};

const lessInbred = ({ males, females, worth, coancestry }: JudgedPairs): Float64Array =>
  worth.map((each, cell) => {
    const m = Math.floor(cell / females.length);
    const f = males.length + (cell % females.length);
    return Number.isNaN(each) ? NaN : -coancestry[m * (males.length + females.length) + f]!;
  });

/** What cannot be done with these fish is an answer; everything else is a fault. */
const outcomeOf = (error: unknown): string | null => {
  const known = error instanceof MatingError || error instanceof RequestError;
  const codes = ['MATING_TOO_FEW_FISH', 'MATING_PAIRS_UNREACHABLE', 'MATING_PAIR_NOT_ALLOWED'];
  return known && codes.includes(error.code) ? error.message : null;
};

const expectBroods = (broods: number): number => {
  if (Number.isInteger(broods) && broods >= 1 && broods <= MOST_BROODS) return broods;
  throw fieldError({
    field: 'broods',
    message: `${broods} broods: give a whole number from 1 to ${MOST_BROODS}.`,
  });
};

const wishesOf = (input: PairProposalInput, { males, females }: JudgedPairs): PairWishes => {
  const places = new Map([...males, ...females].map((id, place) => [id, place]));
  const place = (field: string, id: string): number => {
    const found = places.get(id.toLowerCase());
    if (found !== undefined) return found;
    throw fieldError({
      field,
      message: `The fish ${id} is not among those of this line that are in use here: take it out.`,
    });
  };
  const pairs = (field: string, list: PairOfFishInput[] | null | undefined) =>
    (list ?? []).map(({ sireId, damId }): readonly [number, number] => {
      const [male, female] = [place(field, sireId), place(field, damId) - males.length];
      if (male < males.length && female >= 0) return [male, female];
      throw fieldError({
        field,
        message: 'A pair is a male and a female: name them in this order.',
      });
    });
  return {
    mustFish: (input.mustFishIds ?? []).map((id) => place('mustFishIds', id)),
    mustNotFish: (input.mustNotFishIds ?? []).map((id) => place('mustNotFishIds', id)),
    mustPairs: pairs('mustPairs', input.mustPairs),
    mustNotPairs: pairs('mustNotPairs', input.mustNotPairs),
  };
};
