import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { ResetTraitModelInput, SetTraitModelInput } from './merit.inputs.js';
import { toTraitMerit } from './trait-merit.mapper.js';
import { TraitMeritModel } from './trait-merit.model.js';
import { TraitMeritService } from './trait-merit.service.js';
import { TraitModelsService } from './trait-models.service.js';

@Resolver(() => TraitMeritModel)
export class TraitMeritResolver {
  constructor(
    private readonly merit: TraitMeritService,
    private readonly models: TraitModelsService,
  ) {}

  @Query(() => TraitMeritModel, {
    description:
      'What of a trait is passed on: heritability in this stock, what it rests on, and how selected the scores are.',
  })
  async traitMerit(
    @Args('traitId', { type: () => ID, description: 'The trait.' }) traitId: string,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<TraitMeritModel> {
    const standing = await this.merit.of(traitId, person.name);
    return toTraitMerit(standing, await this.merit.worthNamed(standing));
  }

  @Mutation(() => TraitMeritModel, {
    description:
      'Sets with what a trait’s breeding values are worked out; answers what they are then.',
  })
  async setTraitModel(
    @Args('input', { description: 'The settings.' }) input: SetTraitModelInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<TraitMeritModel> {
    await this.models.set(input, person);
    return this.traitMerit(input.traitId, person);
  }

  @Mutation(() => TraitMeritModel, {
    description: 'Goes back to the settings that are usual for the kind of trait.',
  })
  async resetTraitModel(
    @Args('input', { description: 'Which.' }) input: ResetTraitModelInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<TraitMeritModel> {
    await this.models.reset(input.traitId, input.revision, person);
    return this.traitMerit(input.traitId, person);
  }
}
