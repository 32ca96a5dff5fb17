import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { After, First } from '../graphql/page.js';
import { CurrentKeeper } from '../accounts/session.guard.js';
import { toFish } from '../shapes/fish.mapper.js';
import { FishModel } from '../shapes/fish.model.js';
import type { SignedInKeeper } from '../graphql/request-context.js';
import { WithdrawInput } from '../graphql/withdraw.input.js';
import { SpawnLogService } from './spawn-log.service.js';
import {
  AddFishToSpawnInput,
  ClassCountInput,
  CorrectSpawnInput,
  CreateSpawnInput,
  SpawnCountInput,
  SpawnEventInput,
  SpawnFilter,
  SpawnLossInput,
  SpawnSort,
  WithdrawSpawnEntryInput,
} from './spawn.inputs.js';
import { toSpawn } from '../shapes/spawn.mapper.js';
import { SpawnConnectionModel, SpawnModel } from '../shapes/spawn.model.js';
import { SpawnsService } from './spawns.service.js';
import { SibsService } from './sibs.service.js';

@Resolver(() => SpawnModel)
export class SpawnsResolver {
  constructor(
    private readonly spawns: SpawnsService,
    private readonly log: SpawnLogService,
    private readonly sibs: SibsService,
  ) {}

  @Query(() => SpawnModel, { description: 'One spawn.' })
  async spawn(
    @Args('id', { type: () => ID, description: 'Its id.' }) id: string,
  ): Promise<SpawnModel> {
    return toSpawn(await this.spawns.one(id));
  }

  @Query(() => SpawnConnectionModel, {
    description: 'Spawns, filtered and sorted, a page at a time.',
  })
  async spawnList(
    @Args('filter', { type: () => SpawnFilter, nullable: true, description: 'Which.' })
    filter: SpawnFilter | null,
    @Args('sort', {
      type: () => SpawnSort,
      nullable: true,
      description: 'In what order; newest first when absent.',
    })
    sort: SpawnSort | null,
    @First() first: number,
    @After() after: string | null,
  ): Promise<SpawnConnectionModel> {
    const order = sort ?? { field: 'SPAWNED_ON', direction: 'DESC' };
    const page = await this.spawns.list(filter ?? {}, order, first, after ?? undefined);
    return {
      ...page,
      edges: page.edges.map(({ cursor, node }) => ({ cursor, node: toSpawn(node) })),
    };
  }

  @Mutation(() => SpawnModel, { description: 'Records a new spawn.' })
  async createSpawn(
    @Args('input', { description: 'The spawn.' }) input: CreateSpawnInput,
    @CurrentKeeper() keeper: SignedInKeeper,
  ): Promise<SpawnModel> {
    return toSpawn(await this.spawns.create(input, keeper));
  }

  @Mutation(() => SpawnModel, { description: 'Corrects a spawn.' })
  async correctSpawn(
    @Args('input', { description: 'What changes.' }) input: CorrectSpawnInput,
    @CurrentKeeper() keeper: SignedInKeeper,
  ): Promise<SpawnModel> {
    return toSpawn(await this.spawns.correct(input, keeper));
  }

  @Mutation(() => SpawnModel, { description: 'Withdraws a spawn that no recorded fish came from.' })
  async withdrawSpawn(
    @Args('input', { description: 'Which and why.' }) input: WithdrawInput,
    @CurrentKeeper() keeper: SignedInKeeper,
  ): Promise<SpawnModel> {
    return toSpawn(await this.spawns.withdraw(input, keeper));
  }

  @Mutation(() => [FishModel], { description: 'Gives records to fish of a spawn.' })
  async addFishToSpawn(
    @Args('input', { description: 'How many, and how tagged.' }) input: AddFishToSpawnInput,
    @CurrentKeeper() keeper: SignedInKeeper,
  ): Promise<FishModel[]> {
    return (await this.spawns.addFish(input, keeper)).map(toFish);
  }

  @Mutation(() => SpawnModel, {
    description:
      'Says of fish already recorded that they are full sibs: those without a spawn join the spawn of the others, or get a new one whose parents are unknown.',
  })
  async recordSibs(
    @Args('fishIds', { type: () => [ID], description: 'The sibs, two or more.' })
    fishIds: string[],
    @Args('tag', { description: 'Tag of the spawn, where one has to be made.' }) tag: string,
    @CurrentKeeper() keeper: SignedInKeeper,
  ): Promise<SpawnModel> {
    return toSpawn(await this.sibs.record(fishIds, tag, keeper));
  }

  @Mutation(() => SpawnModel, { description: 'Records what happened in a spawn.' })
  async recordSpawnEvent(
    @Args('input', { description: 'The event.' }) input: SpawnEventInput,
    @CurrentKeeper() keeper: SignedInKeeper,
  ): Promise<SpawnModel> {
    return toSpawn(await this.log.recordEvent(input, keeper));
  }

  @Mutation(() => SpawnModel, { description: 'Records a count of young at a stage.' })
  async recordSpawnCount(
    @Args('input', { description: 'The count.' }) input: SpawnCountInput,
    @CurrentKeeper() keeper: SignedInKeeper,
  ): Promise<SpawnModel> {
    return toSpawn(await this.log.recordCount(input, keeper));
  }

  @Mutation(() => SpawnModel, { description: 'Records losses or culls as a count with a reason.' })
  async recordSpawnLoss(
    @Args('input', { description: 'The loss.' }) input: SpawnLossInput,
    @CurrentKeeper() keeper: SignedInKeeper,
  ): Promise<SpawnModel> {
    return toSpawn(await this.log.recordLoss(input, keeper));
  }

  @Mutation(() => SpawnModel, { description: 'Records how many young showed a phenotype class.' })
  async recordClassCount(
    @Args('input', { description: 'The count.' }) input: ClassCountInput,
    @CurrentKeeper() keeper: SignedInKeeper,
  ): Promise<SpawnModel> {
    return toSpawn(await this.log.recordClassCount(input, keeper));
  }

  @Mutation(() => SpawnModel, { description: 'Withdraws an event, count, loss or class count.' })
  async withdrawSpawnEntry(
    @Args('input', { description: 'Which and why.' }) input: WithdrawSpawnEntryInput,
    @CurrentKeeper() keeper: SignedInKeeper,
  ): Promise<SpawnModel> {
    return toSpawn(await this.log.withdrawEntry(input, keeper));
  }
}
