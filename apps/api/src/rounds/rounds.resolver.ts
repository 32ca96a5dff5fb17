import {
  Args,
  Context,
  ID,
  Mutation,
  Parent,
  Query,
  ResolveField,
  Resolver,
} from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import { PersonModel } from '../accounts/session.model.js';
import { notFound } from '../errors/request-error.js';
import { mapPage } from '../graphql/connection.js';
import { After, First } from '../graphql/page.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { WithdrawInput } from '../graphql/withdraw.input.js';
import { toLine } from '../shapes/line.mapper.js';
import { LineModel } from '../shapes/line.model.js';
import { LineLoader } from '../stock/line.loader.js';
import { PersonLoader } from '../stock/person.loader.js';
import { RoundLoader } from '../stock/round.loader.js';
import { toRound, toRoundPair } from './round.mapper.js';
import { RoundConnectionModel, RoundModel, RoundPairModel } from './round.model.js';
import { AdoptRoundInput } from './rounds.inputs.js';
import { RoundsService } from './rounds.service.js';

@Resolver(() => RoundModel)
export class RoundsResolver {
  constructor(
    private readonly roundsService: RoundsService,
    private readonly loader: RoundLoader,
    private readonly lines: LineLoader,
    private readonly people: PersonLoader,
  ) {}

  @Query(() => RoundConnectionModel, {
    description: 'Rounds of a line, the newest first, a page at a time.',
  })
  async rounds(
    @Args('lineId', { type: () => ID, description: 'The line.' }) lineId: string,
    @First() first: number,
    @After() after: string | null,
  ): Promise<RoundConnectionModel> {
    return mapPage(await this.roundsService.ofLine(lineId, first, after ?? undefined), toRound);
  }

  @Query(() => RoundModel, { description: 'One round.' })
  async round(
    @Args('id', { type: () => ID, description: 'Its id.' }) id: string,
  ): Promise<RoundModel> {
    return toRound(await this.roundsService.one(id));
  }

  @Mutation(() => RoundModel, {
    description:
      'Adopts pairs for a line: all of them are planned, and kept as one round with what is expected of them.',
  })
  async adoptRound(
    @Args('input', { description: 'The pairs.' }) input: AdoptRoundInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<RoundModel> {
    return toRound(await this.roundsService.adopt(input, person));
  }

  @Mutation(() => RoundModel, {
    description:
      'Takes a round back: its pairs that are still planned are dropped; it stays in the history.',
  })
  async withdrawRound(
    @Args('input', { description: 'Which and why.' }) input: WithdrawInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<RoundModel> {
    return toRound(await this.roundsService.withdraw(input, person));
  }

  @ResolveField(() => [RoundPairModel], { description: 'Its pairs.' })
  async pairs(@Parent() round: RoundModel, @Context() context: object): Promise<RoundPairModel[]> {
    return (await this.loader.pairs.of(context).load(round.id)).map(toRoundPair);
  }

  @ResolveField(() => LineModel, { description: 'The line.' })
  async line(@Parent() round: RoundModel, @Context() context: object): Promise<LineModel> {
    const row = await this.lines.byId.of(context).load(round.lineId);
    if (row === null) throw notFound('line', round.lineId);
    return toLine(row);
  }

  @ResolveField(() => PersonModel, { description: 'Who adopted it.' })
  person(@Parent() round: RoundModel, @Context() context: object): Promise<PersonModel> {
    return this.people.known(round.personId, context);
  }
}
