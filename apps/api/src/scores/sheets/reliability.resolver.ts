import { Args, ID, Int, Query, Resolver } from '@nestjs/graphql';
import { TraitReliabilityModel } from './reliability.model.js';
import { ReliabilityService } from './reliability.service.js';

@Resolver(() => TraitReliabilityModel)
export class ReliabilityResolver {
  constructor(private readonly reliability: ReliabilityService) {}

  @Query(() => TraitReliabilityModel, {
    description: 'How well scores of a trait repeat, and how far its scorers agree.',
    complexity: ({ childComplexity }: { childComplexity: number }) => 1 + 50 * childComplexity,
  })
  traitReliability(
    @Args('traitId', { type: () => ID, description: 'The trait.' }) traitId: string,
    @Args('windowDays', {
      type: () => Int,
      defaultValue: 14,
      description: 'Scores of a fish within so many days count as repeats.',
    })
    windowDays: number,
  ): Promise<TraitReliabilityModel> {
    return this.reliability.ofTrait(traitId, windowDays);
  }
}
