import { Context, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { CurrentAccount } from '../accounts/session.guard.js';
import { toRequest } from '../club/requests.mapper.js';
import { ClubRequestModel } from '../club/requests.model.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { toHandOver } from '../hand-over/hand-over.mapper.js';
import { HandOverModel } from '../hand-over/hand-over.model.js';
import { HandOverLoader } from '../stock/hand-over.loader.js';

/** What became of a request that was answered yes. */
@Resolver(() => ClubRequestModel)
export class RequestHandOversResolver {
  constructor(private readonly loader: HandOverLoader) {}

  @ResolveField(() => [HandOverModel], {
    description: 'Fish offered for it, taken back ones too, the earliest first.',
  })
  async handOvers(
    @Parent() { id }: ClubRequestModel,
    @CurrentAccount() { keepsFor }: SignedInPerson,
    @Context() context: object,
  ): Promise<HandOverModel[]> {
    const rows = await this.loader.byRequest.of(context).load(id);
    return rows.map((row) => toHandOver(row, keepsFor));
  }
}

/** The request that a fish was offered for. */
@Resolver(() => HandOverModel)
export class HandOverRequestResolver {
  constructor(private readonly loader: HandOverLoader) {}

  @ResolveField(() => ClubRequestModel, {
    nullable: true,
    description: 'The request of the club that it answers, told to those two alone.',
  })
  async request(
    @Parent() { requestId }: HandOverModel,
    @CurrentAccount() account: SignedInPerson,
    @Context() context: object,
  ): Promise<ClubRequestModel | null> {
    if (requestId === null) return null;
    const row = await this.loader.requests.of(context).load(requestId);
    return row === null ? null : toRequest(row, account);
  }
}
