import { Args, Mutation, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { WithdrawInput } from '../graphql/withdraw.input.js';
import { SpawnModel } from '../shapes/spawn.model.js';
import { DrawForScoringInput } from './merit.inputs.js';
import { ScoringDrawModel } from './scoring-draw.model.js';
import { ScoringDrawsService } from './scoring-draws.service.js';

@Resolver(() => SpawnModel)
export class ScoringDrawsResolver {
  constructor(private readonly draws: ScoringDrawsService) {}

  @ResolveField(() => [ScoringDrawModel], {
    description: 'Draws of young to be scored before sorting, the newest first.',
  })
  scoringDraws(@Parent() spawn: SpawnModel): Promise<ScoringDrawModel[]> {
    return this.draws.ofSpawn(spawn.id);
  }

  @Mutation(() => ScoringDrawModel, {
    description:
      'Lets chance choose young of a brood, here, not sorted and not drawn before, to be scored before sorting: all of them when there are no more. Refused with SORTING_BEGUN once fish that were not drawn were decided about.',
  })
  drawForScoring(
    @Args('input', { description: 'The brood, and how many.' }) input: DrawForScoringInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<ScoringDrawModel> {
    return this.draws.draw(input, person);
  }

  @Mutation(() => ScoringDrawModel, { description: 'Takes a draw back; it stays in the history.' })
  withdrawScoringDraw(
    @Args('input', { description: 'Which and why.' }) input: WithdrawInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<ScoringDrawModel> {
    return this.draws.withdraw(input, person);
  }
}
