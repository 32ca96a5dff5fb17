import { createHash } from 'node:crypto';
import type { JudgedPairs, LinePurpose, PairWishes } from '@linewright/mating';
import { fieldError } from '../errors/request-error.js';
import type { StandingPair } from '../stock/round-rows.js';
import type { ProposalTask } from './propose.js';
import type { PairOfFishInput, PairProposalInput } from './rounds.inputs.js';

const MOST_BROODS = 50;
/** Seconds for one proposal; what is open then is told with its gap. */
const SECONDS = 12;
/** Raised whenever the answer gets another shape. */
const SHAPE = '1';

type Places = readonly (readonly [number, number])[];

/** What is asked of the solver. */
export interface Asked {
  readonly purpose: LinePurpose;
  /** Broods to make beside the pairs that stand. */
  readonly broods: number;
  readonly hasAims: boolean;
  readonly stock: JudgedPairs;
  readonly standing: Places;
  readonly wishes: PairWishes;
  readonly kinshipLimit: number | null;
}

export const proposalTask = (asked: Asked): ProposalTask => {
  const { purpose, broods, hasAims, stock, standing, wishes, kinshipLimit } = asked;
  const limit = kinshipLimit ?? (hasAims ? undefined : ('least' as const));
  // Where nothing is wanted of the young, broods of a smaller F come first among those as little related.
  const worth = hasAims ? stock.worth : lessInbred(stock);
  return {
    problem: {
      ...{ ...stock, worth, broods, standing },
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

/** Changes with everything that the proposal is made from. */
export const stateOfProposal = ({ problem, question }: ProposalTask): string => {
  const { worth, coancestry, ...rest } = problem;
  return createHash('sha256')
    .update(SHAPE)
    .update(worth)
    .update(coancestry)
    .update(JSON.stringify([rest, question]))
    .digest('hex');
};

/** The line and what is insisted on, short enough to be looked up by. */
export const subjectOfProposal = ({ lineId, ...asked }: PairProposalInput): string =>
  `${lineId} ${createHash('sha256').update(JSON.stringify(asked)).digest('hex')}`;

const lessInbred = ({ males, females, worth, coancestry }: JudgedPairs): Float64Array =>
  worth.map((each, cell) => {
    const m = Math.floor(cell / females.length);
    const f = males.length + (cell % females.length);
    return Number.isNaN(each) ? NaN : -coancestry[m * (males.length + females.length) + f]!;
  });

/** Broods that are asked for, else those that there is room for beside the pairs that stand; 0: none. */
export const broodsLeft = (
  asked: number | null | undefined,
  { broods, vessels }: LinePurpose,
  standing: readonly StandingPair[],
): number => {
  if (asked == null) return Math.max(0, Math.min(broods, vessels ?? broods) - standing.length);
  if (Number.isInteger(asked) && asked >= 1 && asked <= MOST_BROODS) return asked;
  throw fieldError({
    field: 'broods',
    message: `${asked} broods: give a whole number from 1 to ${MOST_BROODS}.`,
  });
};

/** Pairs that stand by their places; those of a fish that is no candidate any more have none. */
export const standingPlaces = (
  { males, females }: Pick<JudgedPairs, 'males' | 'females'>,
  standing: readonly Pick<StandingPair, 'sireId' | 'damId'>[],
): Places => {
  const found = new Map<string, readonly [number, number]>();
  for (const { sireId, damId } of standing) {
    const [m, f] = [males.indexOf(sireId), females.indexOf(damId)];
    if (m >= 0 && f >= 0) found.set(`${m} ${f}`, [m, f]);
  }
  return [...found.values()];
};

export const wishesOf = (
  input: PairProposalInput,
  { males, females }: Pick<JudgedPairs, 'males' | 'females'>,
): PairWishes => {
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
