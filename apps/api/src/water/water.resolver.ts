import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { After, First } from '../graphql/page.js';
import { CurrentPerson } from '../accounts/session.guard.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { WithdrawInput } from '../graphql/withdraw.input.js';
import { CorrectWaterInput, RecordWaterInput, WaterRuleInput } from './water.inputs.js';
import {
  WaterAlertModel,
  WaterPlaceModel,
  WaterReadingConnectionModel,
  WaterReadingModel,
  WaterRuleModel,
} from './water.model.js';
import { WaterViewService } from './water-view.service.js';
import { WaterRulesService } from './water-rules.service.js';
import { WaterService } from './water.service.js';

@Resolver(() => WaterReadingModel)
export class WaterResolver {
  constructor(
    private readonly water: WaterService,
    private readonly rules: WaterRulesService,
    private readonly views: WaterViewService,
  ) {}

  @Query(() => WaterReadingConnectionModel, {
    description: 'Readings of one spawn, of one vessel, or all, newest first, a page at a time.',
  })
  async waterReadings(
    @CurrentPerson() person: SignedInPerson,
    @Args('spawnId', { type: () => ID, nullable: true, description: 'Of this spawn.' })
    spawnId: string | null,
    @Args('vessel', { type: () => String, nullable: true, description: 'Of this vessel.' })
    vessel: string | null,
    @First(60) first: number,
    @After() after: string | null,
  ): Promise<WaterReadingConnectionModel> {
    return this.views.readings(
      await this.water.readings({ spawnId, vessel }, person, { first, after }),
      person,
    );
  }

  @Query(() => [WaterPlaceModel], {
    description: 'Every spawn and vessel with readings, the one read last first.',
    complexity: ({ childComplexity }) => 60 * childComplexity,
  })
  waterPlaces(@CurrentPerson() person: SignedInPerson): Promise<WaterPlaceModel[]> {
    return this.views.places(person);
  }

  @Query(() => [WaterAlertModel], {
    description: 'What the newest readings of the last two weeks ask for, gravest first.',
    complexity: ({ childComplexity }) => 30 * childComplexity,
  })
  waterAlerts(@CurrentPerson() person: SignedInPerson): Promise<WaterAlertModel[]> {
    return this.views.alerts(person);
  }

  @Query(() => WaterRuleModel, { description: 'By what readings are judged.' })
  waterRule(@CurrentPerson() person: SignedInPerson): Promise<WaterRuleModel> {
    return this.views.rule(person);
  }

  @Mutation(() => WaterReadingModel, { description: 'Records a reading of water.' })
  async recordWater(
    @Args('input', { description: 'The reading.' }) input: RecordWaterInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<WaterReadingModel> {
    return this.views.reading(await this.water.record(input, person), person);
  }

  @Mutation(() => WaterReadingModel, { description: 'Corrects a reading.' })
  async correctWater(
    @Args('input', { description: 'What it should say.' }) input: CorrectWaterInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<WaterReadingModel> {
    return this.views.reading(await this.water.correct(input, person), person);
  }

  @Mutation(() => WaterReadingModel, { description: 'Withdraws a reading.' })
  async withdrawWater(
    @Args('input', { description: 'Which and why.' }) input: WithdrawInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<WaterReadingModel> {
    return this.views.reading(await this.water.withdraw(input, person), person);
  }

  @Mutation(() => WaterRuleModel, { description: 'Sets by what readings are judged.' })
  async setWaterRule(
    @Args('input', { description: 'The rule.' }) input: WaterRuleInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<WaterRuleModel> {
    await this.rules.set(person.id, input);
    return this.views.rule(person);
  }
}
