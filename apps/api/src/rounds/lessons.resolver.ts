import { Args, Mutation, Resolver } from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { LessonInput } from './lessons.inputs.js';
import { LessonsService } from './lessons.service.js';
import { toRound } from './round.mapper.js';
import { RoundModel } from './round.model.js';

@Resolver()
export class LessonsResolver {
  constructor(private readonly lessons: LessonsService) {}

  @Mutation(() => RoundModel, { description: 'Says what was learnt from a round.' })
  async sayWhatWasLearnt(
    @Args('input', { description: 'The round, and what was learnt.' }) input: LessonInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<RoundModel> {
    return toRound(await this.lessons.say(input, person));
  }
}
