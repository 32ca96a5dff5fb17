import { Args, ID, Query, Resolver } from '@nestjs/graphql';
import {
  HowInheritedModel,
  LinkageAnswerModel,
  LinkageBroodInput,
  LinkageBroodModel,
  LookInput,
} from './inheritance.model.js';
import { InheritanceService } from './inheritance.service.js';

@Resolver()
export class InheritanceResolver {
  constructor(private readonly inheritance: InheritanceService) {}

  @Query(() => LinkageAnswerModel, {
    description: 'Two looks inherited together? From young counted by both looks; counts only.',
  })
  linkage(
    @Args('broods', { type: () => [LinkageBroodInput], description: 'The broods.' })
    broods: LinkageBroodInput[],
  ): Promise<LinkageAnswerModel> {
    return this.inheritance.linkage(broods);
  }

  @Query(() => [LinkageBroodModel], {
    description:
      'Broods on record that bear on two looks, each shown with two copies only: of parents that carry both.',
  })
  linkageBroods(
    @Args('first', { type: () => LookInput, description: 'One look.' }) first: LookInput,
    @Args('second', { type: () => LookInput, description: 'The other, of another locus.' })
    second: LookInput,
  ): Promise<LinkageBroodModel[]> {
    return this.inheritance.broodsOnRecord(first, second);
  }

  @Query(() => HowInheritedModel, {
    description:
      'One locus, two, or many: one look at a locus against all others, weighed by every look on record over the whole pedigree.',
  })
  howInherited(
    @Args('locusId', { type: () => ID, description: 'The locus.' }) locusId: string,
    @Args('phenotype', { type: () => String, description: 'The look, by id or name.' })
    phenotype: string,
  ): Promise<HowInheritedModel> {
    return this.inheritance.howInherited(locusId, phenotype);
  }
}
