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
import { CurrentKeeper } from '../accounts/session.guard.js';
import { KeeperModel } from '../accounts/session.model.js';
import { KeeperLoader } from '../stock/keeper.loader.js';
import { notFound } from '../errors/request-error.js';
import type { SignedInKeeper } from '../graphql/request-context.js';
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
    private readonly keepers: KeeperLoader,
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
    @CurrentKeeper() keeper: SignedInKeeper,
  ): Promise<LineModel> {
    return toLine(await this.lines.create(input, keeper));
  }

  @Mutation(() => LineModel, { description: 'Corrects a line.' })
  async correctLine(
    @Args('input', { description: 'What changes.' }) input: CorrectLineInput,
    @CurrentKeeper() keeper: SignedInKeeper,
  ): Promise<LineModel> {
    return toLine(await this.lines.correct(input, keeper));
  }

  @Mutation(() => LineModel, { description: 'Withdraws a line that no fish belongs to.' })
  async withdrawLine(
    @Args('input', { description: 'Which and why.' }) input: WithdrawInput,
    @CurrentKeeper() keeper: SignedInKeeper,
  ): Promise<LineModel> {
    return toLine(await this.lines.withdraw(input, keeper));
  }

  @ResolveField(() => KeeperModel, { description: 'Whose line it is.' })
  async keeper(@Parent() line: LineModel, @Context() context: object): Promise<KeeperModel> {
    const keeper = await this.keepers.byId.of(context).load(line.keeperId);
    if (keeper === null) throw notFound('keeper', line.keeperId);
    return keeper;
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
