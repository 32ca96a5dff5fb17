import { Args, ID, Parent, Query, ResolveField, Resolver } from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import { After, First } from '../graphql/page.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { FishModel } from '../shapes/fish.model.js';
import {
  FishMeritModel,
  MeritReasonsModel,
  RankedFishConnectionModel,
} from './fish-merit.model.js';
import { FishMeritService } from './fish-merit.service.js';

@Resolver(() => FishModel)
export class FishMeritResolver {
  constructor(private readonly values: FishMeritService) {}

  @ResolveField(() => [FishMeritModel], {
    description: 'What it passes on of each scored trait, by name.',
    complexity: ({ childComplexity }) => 2_500 + 10 * childComplexity,
  })
  merit(
    @Parent() fish: FishModel,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<FishMeritModel[]> {
    return this.values.ofFish(fish.id, person.name);
  }

  @Query(() => RankedFishConnectionModel, {
    description:
      'Fish by their values for a trait, the best first; refused with VALIDATION while they are worked out.',
  })
  rankedFish(
    @Args('traitId', { type: () => ID, description: 'The trait.' }) traitId: string,
    @Args('lineId', { type: () => ID, nullable: true, description: 'Of this line only.' })
    lineId: string | null,
    @Args('inUse', {
      type: () => Boolean,
      defaultValue: true,
      description: 'Only fish in use; false: all that stand.',
    })
    inUse: boolean,
    @First() first: number,
    @After() after: string | null,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<RankedFishConnectionModel> {
    return this.values.ranked(
      { traitId, lineId: lineId ?? null, inUse },
      { first, after: after ?? null },
      person.name,
    );
  }

  @Query(() => MeritReasonsModel, {
    nullable: true,
    description:
      'Why a fish has its value: which relatives’ scores count for how much; null without a value.',
  })
  meritReasons(
    @Args('fishId', { type: () => ID, description: 'The fish.' }) fishId: string,
    @Args('traitId', { type: () => ID, description: 'The trait.' }) traitId: string,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<MeritReasonsModel | null> {
    return this.values.reasons(fishId, traitId, person.name);
  }
}
