import { Args, ID, Query, Resolver } from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { LineInbreedingLoadModel, TraitInbreedingLoadModel } from './line-load.model.js';
import { TraitLoadService } from './trait-load.service.js';
import { LineLoadService } from './line-load.service.js';
import { TraitTrendModel } from './trait-trend.model.js';
import { TraitTrendService } from './trait-trend.service.js';

@Resolver(() => TraitTrendModel)
export class LineMeritResolver {
  constructor(
    private readonly trends: TraitTrendService,
    private readonly loads: LineLoadService,
    private readonly traitLoads: TraitLoadService,
  ) {}

  @Query(() => TraitTrendModel, { description: 'Whether a line is moving in a trait.' })
  traitTrend(
    @Args('traitId', { type: () => ID, description: 'The trait.' }) traitId: string,
    @Args('lineId', { type: () => ID, description: 'The line.' }) lineId: string,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<TraitTrendModel> {
    return this.trends.of(traitId, lineId, person.name);
  }

  @Query(() => [TraitTrendModel], {
    description: 'Whether a line is moving, in each scored trait, by name.',
  })
  lineTrends(
    @Args('lineId', { type: () => ID, description: 'The line.' }) lineId: string,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<TraitTrendModel[]> {
    return this.trends.ofLine(lineId, person.name);
  }

  @Query(() => LineInbreedingLoadModel, {
    description:
      'What inbreeding costs in a line, measured on its own broods, stage by stage; the latest 80 that were counted.',
  })
  lineInbreedingLoad(
    @Args('lineId', { type: () => ID, description: 'The line.' }) lineId: string,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<LineInbreedingLoadModel> {
    return this.loads.of(lineId, person.name);
  }

  @Query(() => TraitInbreedingLoadModel, {
    description:
      'What inbreeding does to a measured trait in a line; refused with VALIDATION for a trait that is not measured.',
  })
  traitInbreedingLoad(
    @Args('traitId', { type: () => ID, description: 'The trait.' }) traitId: string,
    @Args('lineId', { type: () => ID, description: 'The line.' }) lineId: string,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<TraitInbreedingLoadModel> {
    return this.traitLoads.of(traitId, lineId, person.name);
  }
}
