import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { MarkingErrorModel } from '../shapes/marking.model.js';
import { toScore } from '../shapes/score.mapper.js';
import { ScoreModel } from '../shapes/score.model.js';
import { ScoreFromPictureInput } from './marking.inputs.js';
import { MarkingsService } from './markings.service.js';

@Resolver(() => ScoreModel)
export class MarkingsResolver {
  constructor(private readonly markings: MarkingsService) {}

  @Mutation(() => ScoreModel, {
    description:
      'Scores a trait by what was marked on a picture of the fish. The figure is worked out by the server, and the points are kept with it; a picture may be marked any number of times.',
  })
  async scoreFromPicture(
    @Args('input', { description: 'The picture, the trait and the points.' })
    input: ScoreFromPictureInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<ScoreModel> {
    return toScore(await this.markings.record(input, person));
  }

  @Query(() => MarkingErrorModel, {
    nullable: true,
    description:
      'How far markings of one picture lie apart for a trait; null until a picture was marked twice.',
  })
  markingError(
    @Args('traitId', { type: () => ID, description: 'The trait.' }) traitId: string,
  ): Promise<MarkingErrorModel | null> {
    return this.markings.errorOf(traitId);
  }
}
