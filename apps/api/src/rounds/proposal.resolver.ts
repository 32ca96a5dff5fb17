import type { SetChange, PairProposal } from '@linewright/mating';
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
  type ProposalChangeModel,
} from './proposal.model.js';
import { type Proposed, ProposalService } from './proposal.service.js';
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

const toChange = async (
  change: SetChange | null,
  named: Named,
): Promise<ProposalChangeModel | null> =>
  change === null
    ? null
    : { lost: change.lost, instead: await Promise.all(change.instead.map(named)) };

const toProposal = async (
  { version, purpose, broods, hasAims, stock, proposal, outlooks, problem, waiting }: Proposed,
  named: Named,
): Promise<PairProposalModel> => ({
  ...{ purposeVersion: version, hasAims, problem, broods },
  waiting: waiting === null ? null : toComputation(waiting),
  ...{ broodsPerFish: purpose.broodsPerFish, ceiling: purpose.ceiling, fry: purpose.fry },
  ...{ maleCount: stock.males.length, femaleCount: stock.females.length },
  raisedCeiling: proposal !== null && proposal.ceiling > purpose.ceiling ? proposal.ceiling : null,
  ...(proposal === null ? NOTHING : await toFigures(proposal, outlooks, hasAims, named)),
});

const NOTHING = {
  ...{ possibleCount: 0, kinshipLimit: null, unreachableLimit: null, presentKinship: 0 },
  ...{ pairs: [], worth: 0, worthBound: 0, kinship: 0, inbreeding: 0, frontier: [], price: null },
};

/** Worth is told a pair; where nothing is wanted of the young there is none. */
const toFigures = async (
  { pairs, figures, bound, limit, unreachable, present, frontier, possible, price }: PairProposal,
  outlooks: Proposed['outlooks'],
  hasAims: boolean,
  named: Named,
) => {
  const mean = (worth: number): number => (hasAims ? worth / pairs.length : 0);
  const cost = async (change: SetChange | null): Promise<ProposalChangeModel | null> => {
    const told = await toChange(change, named);
    return told === null || hasAims ? told : { ...told, lost: 0 };
  };
  return {
    ...{ possibleCount: possible, kinshipLimit: limit, unreachableLimit: unreachable },
    presentKinship: present,
    ...{ worth: mean(figures.worth), worthBound: mean(bound) },
    ...{ kinship: figures.coancestry, inbreeding: figures.inbreeding },
    frontier: frontier.map((point) => ({
      ...{ worth: mean(point.worth), kinship: point.coancestry, inbreeding: point.inbreeding },
    })),
    price: await cost(price),
    pairs: await Promise.all(
      pairs.map(async ({ male, female, worth, inbreeding, need, place, without }, k) => ({
        ...(await named([male, female])),
        ...{ worth: hasAims ? worth : 0, inbreedingCoefficient: inbreeding, need, place },
        ...{ standardError: outlooks[k]!.standardError, passing: toPassing(outlooks[k]!.passing) },
        without: await cost(without),
      })),
    ),
  };
};
