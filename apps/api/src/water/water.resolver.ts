import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { After, First } from '../graphql/page.js';
import { CurrentKeeper } from '../accounts/session.guard.js';
import type { SignedInKeeper } from '../graphql/request-context.js';
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
    @CurrentKeeper() keeper: SignedInKeeper,
    @Args('spawnId', { type: () => ID, nullable: true, description: 'Of this spawn.' })
    spawnId: string | null,
    @Args('vessel', { type: () => String, nullable: true, description: 'Of this vessel.' })
    vessel: string | null,
    @First(60) first: number,
    @After() after: string | null,
  ): Promise<WaterReadingConnectionModel> {
    return this.views.readings(
      await this.water.readings({ spawnId, vessel }, keeper, { first, after }),
      keeper,
    );
  }

  @Query(() => [WaterPlaceModel], {
    description: 'Every spawn and vessel with readings, the one read last first.',
    complexity: ({ childComplexity }) => 60 * childComplexity,
  })
  waterPlaces(@CurrentKeeper() keeper: SignedInKeeper): Promise<WaterPlaceModel[]> {
    return this.views.places(keeper);
  }

  @Query(() => [WaterAlertModel], {
    description: 'What the newest readings of the last two weeks ask for, gravest first.',
    complexity: ({ childComplexity }) => 30 * childComplexity,
  })
  waterAlerts(@CurrentKeeper() keeper: SignedInKeeper): Promise<WaterAlertModel[]> {
    return this.views.alerts(keeper);
  }

  @Query(() => WaterRuleModel, { description: 'By what readings are judged.' })
  waterRule(@CurrentKeeper() keeper: SignedInKeeper): Promise<WaterRuleModel> {
    return this.views.rule(keeper);
  }

  @Mutation(() => WaterReadingModel, { description: 'Records a reading of water.' })
  async recordWater(
    @Args('input', { description: 'The reading.' }) input: RecordWaterInput,
    @CurrentKeeper() keeper: SignedInKeeper,
  ): Promise<WaterReadingModel> {
    return this.views.reading(await this.water.record(input, keeper), keeper);
  }

  @Mutation(() => WaterReadingModel, { description: 'Corrects a reading.' })
  async correctWater(
    @Args('input', { description: 'What it should say.' }) input: CorrectWaterInput,
    @CurrentKeeper() keeper: SignedInKeeper,
  ): Promise<WaterReadingModel> {
    return this.views.reading(await this.water.correct(input, keeper), keeper);
  }

  @Mutation(() => WaterReadingModel, { description: 'Withdraws a reading.' })
  async withdrawWater(
    @Args('input', { description: 'Which and why.' }) input: WithdrawInput,
    @CurrentKeeper() keeper: SignedInKeeper,
  ): Promise<WaterReadingModel> {
    return this.views.reading(await this.water.withdraw(input, keeper), keeper);
  }

  @Mutation(() => WaterRuleModel, { description: 'Sets by what readings are judged.' })
  async setWaterRule(
    @Args('input', { description: 'The rule.' }) input: WaterRuleInput,
    @CurrentKeeper() keeper: SignedInKeeper,
  ): Promise<WaterRuleModel> {
    await this.rules.set(keeper.id, input);
    return this.views.rule(keeper);
  }
}
