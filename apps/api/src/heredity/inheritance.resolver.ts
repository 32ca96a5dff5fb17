import { Args, ID, Query, Resolver } from '@nestjs/graphql';
import { HowInheritedModel, LinkageAnswerModel, LinkageBroodInput } from './inheritance.model.js';
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
