import {
  Args,
  Context,
  ID,
  Int,
  Mutation,
  Parent,
  Query,
  ResolveField,
  Resolver,
} from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import { PersonModel } from '../accounts/session.model.js';
import { PersonLoader } from '../stock/person.loader.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { WithdrawInput } from '../graphql/withdraw.input.js';
import { LineLoader } from '../stock/line.loader.js';
import { toLine } from '../shapes/line.mapper.js';
import { CorrectLineInput, CreateLineInput, LineModel } from '../shapes/line.model.js';
import { LinesService } from './lines.service.js';

@Resolver(() => LineModel)
export class LinesResolver {
  constructor(
    private readonly lines: LinesService,
    private readonly loader: LineLoader,
    private readonly people: PersonLoader,
  ) {}

  @Query(() => [LineModel], { name: 'lines', description: 'All lines, by code.' })
  async list(
    @Args('includeWithdrawn', {
      type: () => Boolean,
      defaultValue: false,
      description: 'Withdrawn ones too.',
    })
    includeWithdrawn: boolean,
  ): Promise<LineModel[]> {
    return (await this.lines.list(includeWithdrawn)).map(toLine);
  }

  @Query(() => LineModel, { description: 'One line.' })
  async line(
    @Args('id', { type: () => ID, description: 'Its id.' }) id: string,
  ): Promise<LineModel> {
    return toLine(await this.lines.one(id));
  }

  @Mutation(() => LineModel, { description: 'Records a new line.' })
  async createLine(
    @Args('input', { description: 'The line.' }) input: CreateLineInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<LineModel> {
    return toLine(await this.lines.create(input, person));
  }

  @Mutation(() => LineModel, { description: 'Corrects a line.' })
  async correctLine(
    @Args('input', { description: 'What changes.' }) input: CorrectLineInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<LineModel> {
    return toLine(await this.lines.correct(input, person));
  }

  @Mutation(() => LineModel, { description: 'Withdraws a line that no fish belongs to.' })
  async withdrawLine(
    @Args('input', { description: 'Which and why.' }) input: WithdrawInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<LineModel> {
    return toLine(await this.lines.withdraw(input, person));
  }

  @ResolveField(() => PersonModel, { description: 'Whose line it is.' })
  person(@Parent() line: LineModel, @Context() context: object): Promise<PersonModel> {
    return this.people.known(line.personId, context);
  }

  @ResolveField(() => Int, { description: 'Fish recorded in it.' })
  async fishCount(@Parent() line: LineModel, @Context() context: object): Promise<number> {
    return (await this.loader.counts.of(context).load(line.id)).fish;
  }

  @ResolveField(() => Int, {
    description:
      'Fish in use: keepers, those on hold and those passed on to someone on record, wherever they swim.',
  })
  async inUseCount(@Parent() line: LineModel, @Context() context: object): Promise<number> {
    return (await this.loader.counts.of(context).load(line.id)).inUse;
  }

  @ResolveField(() => Int, { description: 'Spawns recorded in it.' })
  async spawnCount(@Parent() line: LineModel, @Context() context: object): Promise<number> {
    return (await this.loader.counts.of(context).load(line.id)).spawns;
  }
}
