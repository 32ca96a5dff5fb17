import {
  Args,
  Context,
  ID,
  Mutation,
  Parent,
  Query,
  ResolveField,
  Resolver,
} from '@nestjs/graphql';
import { CurrentAccount, CurrentPerson } from '../accounts/session.guard.js';
import { Clock } from '../clock/clock.js';
import { DateScalar } from '../graphql/date.scalar.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { WithdrawInput } from '../graphql/withdraw.input.js';
import { LineLoader } from '../stock/line.loader.js';
import { toLine } from '../shapes/line.mapper.js';
import { LineModel } from '../shapes/line.model.js';
import { toSpawn } from '../shapes/spawn.mapper.js';
import { SpawnModel } from '../shapes/spawn.model.js';
import { SpawnsService } from '../spawns/spawns.service.js';
import { CalendarAddressService } from './calendar-address.service.js';
import { CarePlansService } from './care-plans.service.js';
import { CareTemplatesService } from './care-templates.service.js';
import {
  CorrectCareInput,
  RecordCareInput,
  SaveCareTemplateInput,
  SkipCareInput,
  UndoCareInput,
} from './care.inputs.js';
import { toPlan, toTask, toTemplate } from './care.mapper.js';
import {
  CalendarAddressModel,
  CarePlanModel,
  CareTaskModel,
  CareTemplateModel,
} from './care.model.js';
import { CareService } from './care.service.js';

/** A plan is a few dozen steps with their reasons. */
const PLAN_COST = 20;

@Resolver(() => SpawnModel)
export class SpawnCareResolver {
  constructor(
    private readonly plans: CarePlansService,
    private readonly spawns: SpawnsService,
    private readonly clock: Clock,
  ) {}

  @ResolveField(() => CarePlanModel, {
    description: 'Its care: what was done, what is due and why.',
    complexity: ({ childComplexity }) => PLAN_COST + childComplexity,
  })
  async care(
    @Parent() spawn: SpawnModel,
    @Args('at', { type: () => Date, nullable: true, description: 'As of when; now when absent.' })
    at: Date | null,
    @Context() context: object,
  ): Promise<CarePlanModel> {
    const row = await this.spawns.one(spawn.id);
    const made = await this.plans.ofSpawn(row, at ?? this.clock.now(), context);
    return toPlan(made.inUse, made.plan, made.log);
  }
}

@Resolver(() => CareTemplateModel)
export class CareResolver {
  constructor(
    private readonly plans: CarePlansService,
    private readonly care: CareService,
    private readonly templates: CareTemplatesService,
    private readonly addresses: CalendarAddressService,
    private readonly lines: LineLoader,
    private readonly spawns: SpawnsService,
    private readonly clock: Clock,
  ) {}

  @Query(() => [CareTaskModel], {
    description: 'What all live spawns ask for on some days of a time zone, soonest first.',
    complexity: ({ childComplexity }) => 100 * childComplexity,
  })
  async careTasks(
    @Args('from', { type: () => DateScalar, description: 'First day.' }) from: string,
    @Args('to', { type: () => DateScalar, description: 'Last day.' }) to: string,
    @Args('zone', {
      type: () => String,
      description: "The person's time zone, an IANA name such as Europe/Berlin.",
    })
    zone: string,
    @Args('at', { type: () => Date, nullable: true, description: 'As of when; now when absent.' })
    at: Date | null,
    @CurrentPerson() person: SignedInPerson,
    @Context() context: object,
  ): Promise<CareTaskModel[]> {
    const tasks = await this.plans.tasks(
      person,
      { from, to, zone },
      at ?? this.clock.now(),
      context,
    );
    return tasks.map(({ from: plan, one, day }) =>
      toTask(plan.inUse.template, toSpawn(plan.spawn), one, day),
    );
  }

  @Query(() => [CareTemplateModel], {
    description: 'The built-in calendar, then your own by line.',
    complexity: ({ childComplexity }) => 20 * childComplexity,
  })
  async careTemplates(@CurrentPerson() person: SignedInPerson): Promise<CareTemplateModel[]> {
    return (await this.templates.list(person)).map(toTemplate);
  }

  @Query(() => CalendarAddressModel, {
    description: 'Whether calendar programs may read the tasks.',
  })
  calendarAddress(@CurrentAccount() person: SignedInPerson): Promise<CalendarAddressModel> {
    return this.addresses.state(person);
  }

  @Mutation(() => ID, {
    description: 'Records a step as done or seen; answers the id of the record.',
  })
  recordCare(
    @Args('input', { description: 'What and when.' }) input: RecordCareInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<string> {
    return this.care.record(input, person);
  }

  @Mutation(() => ID, {
    description: 'Leaves a step out, with a reason; answers the id of the record.',
  })
  skipCare(
    @Args('input', { description: 'What and why.' }) input: SkipCareInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<string> {
    return this.care.skip(input, person);
  }

  @Mutation(() => SpawnModel, { description: 'Corrects a record of the log.' })
  async correctCare(
    @Args('input', { description: 'What changes.' }) input: CorrectCareInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<SpawnModel> {
    await this.care.correct(input, person);
    return toSpawn(await this.spawns.one(input.spawnId));
  }

  @Mutation(() => SpawnModel, { description: 'Takes a record of the log back; twice is once.' })
  async undoCare(
    @Args('input', { description: 'Which.' }) input: UndoCareInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<SpawnModel> {
    await this.care.undo(input, person);
    return toSpawn(await this.spawns.one(input.spawnId));
  }

  @Mutation(() => CareTemplateModel, {
    description: "Saves a line's own calendar; every problem of it is told at once.",
  })
  async saveCareTemplate(
    @Args('input', { description: 'The calendar.' }) input: SaveCareTemplateInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<CareTemplateModel> {
    return toTemplate(await this.templates.save(input, person));
  }

  @Mutation(() => ID, {
    description: "Withdraws a line's own calendar: the built-in one holds again.",
  })
  async withdrawCareTemplate(
    @Args('input', { description: 'Which and why.' }) input: WithdrawInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<string> {
    return (await this.templates.withdraw(input, person)).id;
  }

  @Mutation(() => CalendarAddressModel, {
    description:
      'Makes a new secret address for calendar programs; the one before stops answering.',
  })
  renewCalendarAddress(@CurrentAccount() person: SignedInPerson): Promise<CalendarAddressModel> {
    return this.addresses.renew(person);
  }

  @Mutation(() => CalendarAddressModel, { description: 'Turns the calendar address off.' })
  turnOffCalendarAddress(@CurrentAccount() person: SignedInPerson): Promise<CalendarAddressModel> {
    return this.addresses.turnOff(person);
  }

  @ResolveField(() => LineModel, { nullable: true, description: 'Line it is for.' })
  async line(
    @Parent() template: CareTemplateModel,
    @Context() context: object,
  ): Promise<LineModel | null> {
    if (template.lineId === null) return null;
    const row = await this.lines.byId.of(context).load(template.lineId);
    return row === null ? null : toLine(row);
  }
}
