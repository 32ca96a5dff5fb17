import { Args, ID, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { toFish } from '../shapes/fish.mapper.js';
import { FishModel } from '../shapes/fish.model.js';
import type { TaggedKind as Kind } from '../stock/tag-rows.js';
import { RecordFoundersInput, TaggedKind } from './founders.inputs.js';
import { FoundersService } from './founders.service.js';
import { NextTagsService } from './next-tags.service.js';

@Resolver(() => FishModel)
export class FoundersResolver {
  constructor(
    private readonly founders: FoundersService,
    private readonly tags: NextTagsService,
  ) {}

  @Query(() => [String], {
    description:
      'Tags that follow those of a line, as whoever asks numbers: free now, and held for nobody. None where nothing tells how.',
  })
  nextTags(
    @Args('kind', { type: () => TaggedKind, description: 'What the tag is for.' }) kind: Kind,
    @Args('lineId', {
      type: () => ID,
      nullable: true,
      description: 'The line; those of no line when absent.',
    })
    lineId: string | null,
    @Args('number', { type: () => Int, defaultValue: 1, description: 'How many, up to 50.' })
    number: number,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<string[]> {
    return this.tags.next(kind, lineId ?? null, number, person);
  }

  @Mutation(() => [FishModel], {
    description:
      'Records several founders at once: sibs, unrelated fish, or fish of which nobody knows.',
  })
  async recordFounders(
    @Args('input', { description: 'The fish.' }) input: RecordFoundersInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<FishModel[]> {
    return (await this.founders.record(input, person)).map(toFish);
  }
}
