import { Args, Context, Mutation, Parent, Query, ResolveField, Resolver } from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import { notFound } from '../errors/request-error.js';
import { FishLoader } from '../stock/fish.loader.js';
import { toFish } from '../shapes/fish.mapper.js';
import { FishModel } from '../shapes/fish.model.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { WithdrawInput } from '../graphql/withdraw.input.js';
import {
  CorrectScoreInput,
  CorrectTraitInput,
  CreateTraitInput,
  RecordScoresInput,
} from './score.inputs.js';
import { ScoreLoader } from '../stock/score.loader.js';
import { toScore, toTrait } from '../shapes/score.mapper.js';
import { ScoreModel, TraitDefinitionModel } from '../shapes/score.model.js';
import { ScoresService } from './scores.service.js';
import { TraitsService } from './traits.service.js';

@Resolver(() => ScoreModel)
export class ScoresResolver {
  constructor(
    private readonly traitsService: TraitsService,
    private readonly scores: ScoresService,
    private readonly loader: ScoreLoader,
    private readonly fishLoader: FishLoader,
  ) {}

  @Query(() => [TraitDefinitionModel], { description: 'All traits, by name.' })
  async traits(
    @Args('includeWithdrawn', {
      type: () => Boolean,
      defaultValue: false,
      description: 'Withdrawn ones too.',
    })
    includeWithdrawn: boolean,
  ): Promise<TraitDefinitionModel[]> {
    return (await this.traitsService.list(includeWithdrawn)).map(toTrait);
  }

  @Mutation(() => TraitDefinitionModel, { description: 'Defines a new trait.' })
  async createTrait(
    @Args('input', { description: 'The trait.' }) input: CreateTraitInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<TraitDefinitionModel> {
    return toTrait(await this.traitsService.create(input, person));
  }

  @Mutation(() => TraitDefinitionModel, {
    description: 'Corrects a trait; a changed unit or range makes a new version.',
  })
  async correctTrait(
    @Args('input', { description: 'What changes.' }) input: CorrectTraitInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<TraitDefinitionModel> {
    return toTrait(await this.traitsService.correct(input, person));
  }

  @Mutation(() => TraitDefinitionModel, {
    description: 'Withdraws a trait; its scores stay readable.',
  })
  async withdrawTrait(
    @Args('input', { description: 'Which and why.' }) input: WithdrawInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<TraitDefinitionModel> {
    return toTrait(await this.traitsService.withdraw(input, person));
  }

  @Mutation(() => [ScoreModel], {
    description: 'Saves a score sheet of one fish, whole or not at all.',
  })
  async recordScores(
    @Args('input', { description: 'The sheet.' }) input: RecordScoresInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<ScoreModel[]> {
    return (await this.scores.record(input, person)).map(toScore);
  }

  @Mutation(() => ScoreModel, {
    description: 'Corrects a score by a later score; the earlier one stays readable.',
  })
  async correctScore(
    @Args('input', { description: 'The right value and the reason.' }) input: CorrectScoreInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<ScoreModel> {
    return toScore(await this.scores.correct(input, person));
  }

  @Mutation(() => ScoreModel, { description: 'Withdraws a score.' })
  async withdrawScore(
    @Args('input', { description: 'Which and why.' }) input: WithdrawInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<ScoreModel> {
    return toScore(await this.scores.withdraw(input, person));
  }

  @ResolveField(() => TraitDefinitionModel, { description: 'The trait scored.' })
  async trait(
    @Parent() score: ScoreModel,
    @Context() context: object,
  ): Promise<TraitDefinitionModel> {
    const row = await this.loader.traits.of(context).load(score.traitId);
    if (row === null) throw notFound('trait', score.traitId);
    return toTrait(row);
  }

  @ResolveField(() => FishModel, { description: 'The fish scored.' })
  async fish(@Parent() score: ScoreModel, @Context() context: object): Promise<FishModel> {
    const row = await this.fishLoader.byId.of(context).load(score.fishId);
    if (row === null) throw notFound('fish', score.fishId);
    return toFish(row);
  }
}
