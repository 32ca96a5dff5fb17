import type { SetChange, WorthDifference } from '@linewright/mating';
import { Args, Context, Query, Resolver } from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { toComputation } from '../jobs/computation.mapper.js';
import { notFound } from '../errors/request-error.js';
import { toPassing } from '../pairing/worth.mapper.js';
import { toFish } from '../shapes/fish.mapper.js';
import type { FishModel } from '../shapes/fish.model.js';
import { FishLoader } from '../stock/fish.loader.js';
import {
  PairProposalModel,
  type PairOfFishModel,
  type StandingPairsModel,
} from './proposal.model.js';
import { type Proposed, ProposalService } from './proposal.service.js';
import { toRound } from './round.mapper.js';
import { PairProposalInput } from './rounds.inputs.js';

type Named = (pair: readonly [number, number]) => Promise<PairOfFishModel>;

@Resolver()
export class ProposalResolver {
  constructor(
    private readonly proposals: ProposalService,
    private readonly fishLoader: FishLoader,
  ) {}

  @Query(() => PairProposalModel, {
    description:
      'The pairs to make now for a line: mates and broods chosen together, within a limit on kinship, and what overruling costs.',
  })
  async pairProposal(
    @Args('input', { description: 'The line, and what is insisted on.' }) input: PairProposalInput,
    @CurrentPerson() person: SignedInPerson,
    @Context() context: object,
  ): Promise<PairProposalModel> {
    const proposed = await this.proposals.of(input, person.name);
    const { stock } = proposed;
    const named: Named = async ([male, female]) => ({
      sire: await this.fish(stock.males[male]!, context),
      dam: await this.fish(stock.females[female]!, context),
    });
    return toProposal(proposed, named);
  }

  private async fish(id: string, context: object): Promise<FishModel> {
    const row = await this.fishLoader.byId.of(context).load(id);
    if (row === null) throw notFound('fish', id);
    return toFish(row);
  }
}

const toStanding = ({
  standing,
  standingOutlooks,
  rounds,
}: Proposed): StandingPairsModel | null => {
  if (standing.length === 0) return null;
  const waitingCount = standing.filter(({ waits }) => waits).length;
  return {
    rounds: rounds.map(toRound),
    ...{ waitingCount, spawnedCount: standing.length - waitingCount },
    byHandCount: standing.filter(({ roundId }) => roundId === null).length,
    passing: standingOutlooks.map(({ passing }) => toPassing(passing)),
  };
};

const toProposal = async (proposed: Proposed, named: Named): Promise<PairProposalModel> => {
  const { version, purpose, day, broods, hasAims, stock, proposal, problem, waiting } = proposed;
  return {
    ...{ purposeVersion: version, hasAims, problem, broods, day, lastDay: purpose.latest },
    waiting: waiting === null ? null : toComputation(waiting),
    standing: toStanding(proposed),
    ...{ broodsPerFish: purpose.broodsPerFish, ceiling: purpose.ceiling, fry: purpose.fry },
    ...{ maleCount: stock.males.length, femaleCount: stock.females.length },
    raisedCeiling:
      proposal !== null && proposal.ceiling > purpose.ceiling ? proposal.ceiling : null,
    ...(await toFigures(proposed, named)),
  };
};

type Figures = Pick<PairProposalModel, FigureName>;
type FigureName =
  | 'possibleCount'
  | 'kinshipLimit'
  | 'unreachableLimit'
  | 'presentKinship'
  | 'pairs'
  | 'worth'
  | 'standardError'
  | 'worthBound'
  | 'kinship'
  | 'inbreeding'
  | 'frontier'
  | 'price';

const NOTHING: Figures = {
  ...{ possibleCount: 0, kinshipLimit: null, unreachableLimit: null, presentKinship: 0 },
  ...{ pairs: [], worth: 0, standardError: 0, worthBound: 0, kinship: 0, inbreeding: 0 },
  ...{ frontier: [], price: null },
};

/** Where nothing is wanted of the young there is no worth, and nothing to be lost. */
const NO_LOSS = { lost: 0, standardError: 0, toldApart: false };

/** Worth is told a pair. */
const toFigures = async (
  { proposal, differences, outlooks, hasAims }: Proposed,
  named: Named,
): Promise<Figures> => {
  if (proposal === null || differences === null) return NOTHING;
  const { pairs, figures, bound, limit, unreachable, present, frontier, possible, price } =
    proposal;
  const mean = (worth: number): number => (hasAims ? worth / pairs.length : 0);
  const change = async (of: SetChange | null, by: WorthDifference | null) =>
    of === null || by === null
      ? null
      : {
          ...(hasAims ? { ...by, lost: of.lost } : NO_LOSS),
          instead: await Promise.all(of.instead.map(named)),
        };
  return {
    ...{ possibleCount: possible, kinshipLimit: limit, unreachableLimit: unreachable },
    presentKinship: present,
    ...{ worth: mean(figures.worth), worthBound: mean(bound) },
    standardError: mean(differences.standardError),
    ...{ kinship: figures.coancestry, inbreeding: figures.inbreeding },
    frontier: frontier.map((point, k) => ({
      ...{ worth: mean(point.worth), kinship: point.coancestry, inbreeding: point.inbreeding },
      toldApart: hasAims && differences.frontier[k]!.toldApart,
    })),
    price: await change(price, differences.price),
    pairs: await Promise.all(
      pairs.map(async ({ male, female, worth, inbreeding, need, place, without }, k) => ({
        ...(await named([male, female])),
        ...{ worth: hasAims ? worth : 0, inbreedingCoefficient: inbreeding, need, place },
        ...{ standardError: outlooks[k]!.standardError, passing: toPassing(outlooks[k]!.passing) },
        without: await change(without, differences.without[k]!),
      })),
    ),
  };
};
