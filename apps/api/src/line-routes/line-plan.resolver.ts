import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { DataSource } from 'typeorm';
import { CurrentPerson } from '../accounts/session.guard.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { WithdrawInput } from '../graphql/withdraw.input.js';
import { namedFish } from '../kinship/named-fish.js';
import type { LineRouteRow } from '../stock/rows/line-route.entity.js';
import { PlanCourseService } from './plan-course.service.js';
import { AdoptRouteInput, SpawnOfPlanInput } from './line-plan.inputs.js';
import { fishOfPlan, toPlan } from './line-plan.mapper.js';
import { LinePlanModel } from './line-plan.model.js';
import { LinePlanService } from './line-plan.service.js';

@Resolver()
export class LinePlanResolver {
  constructor(
    private readonly dataSource: DataSource,
    private readonly plans: LinePlanService,
    private readonly courses: PlanCourseService,
  ) {}

  @Query(() => LinePlanModel, {
    nullable: true,
    description: 'The plan of a line and how it goes; null: none was adopted.',
  })
  async linePlan(
    @Args('lineId', { type: () => ID, description: 'The line.' }) lineId: string,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<LinePlanModel | null> {
    const row = await this.plans.ofLine(lineId);
    return row === null ? null : this.shown(row, person);
  }

  @Mutation(() => LinePlanModel, {
    description: 'Adopts a route as the plan of its line; a plan that stood before is taken back.',
  })
  async adoptRoute(
    @Args('input', { description: 'The route.' }) input: AdoptRouteInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<LinePlanModel> {
    return this.shown(await this.plans.adopt(input, person), person);
  }

  @Mutation(() => LinePlanModel, {
    description: 'Takes a plan back; what was paired for it stays.',
  })
  async withdrawPlan(
    @Args('input', { description: 'Which and why.' }) input: WithdrawInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<LinePlanModel> {
    return this.shown(await this.plans.withdraw(input, person), person);
  }

  @Mutation(() => LinePlanModel, {
    description: 'Says which spawn is a brood of a plan, where parents and time do not.',
  })
  async saySpawnOfPlan(
    @Args('input', { description: 'The brood and the spawn.' }) input: SpawnOfPlanInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<LinePlanModel> {
    return this.shown(await this.plans.saySpawn(input, person), person);
  }

  private async shown(row: LineRouteRow, { name }: SignedInPerson): Promise<LinePlanModel> {
    const standing = await this.courses.of(row, name);
    return toPlan(standing, await namedFish(this.dataSource, fishOfPlan(standing)));
  }
}
