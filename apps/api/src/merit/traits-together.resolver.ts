import { Args, ID, Query, Resolver } from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { TraitsTogetherModel } from './traits-together.model.js';
import { TraitsTogetherService } from './traits-together.service.js';

@Resolver(() => TraitsTogetherModel)
export class TraitsTogetherResolver {
  constructor(private readonly together: TraitsTogetherService) {}

  @Query(() => TraitsTogetherModel, {
    description:
      'How two traits go together in what is inherited, and what a fish passes on by the scores of both.',
  })
  traitsTogether(
    @Args('traitId', { type: () => ID, description: 'The trait.' }) traitId: string,
    @Args('otherId', { type: () => ID, description: 'The other trait.' }) otherId: string,
    @Args('fishId', {
      type: () => ID,
      nullable: true,
      description: 'A fish whose values are asked for as well.',
    })
    fishId: string | null,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<TraitsTogetherModel> {
    return this.together.of({ traitId, otherId, fishId: fishId ?? null }, person.name);
  }
}
