import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { After, First } from '../graphql/page.js';
import { CurrentPerson } from '../accounts/session.guard.js';
import { toFish } from '../shapes/fish.mapper.js';
import { FishModel } from '../shapes/fish.model.js';
import type { SignedInPerson } from '../graphql/request-context.js';
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
  WithdrawFromSpawnLogInput,
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
    @CurrentPerson() person: SignedInPerson,
  ): Promise<SpawnModel> {
    return toSpawn(await this.spawns.create(input, person));
  }

  @Mutation(() => SpawnModel, { description: 'Corrects a spawn.' })
  async correctSpawn(
    @Args('input', { description: 'What changes.' }) input: CorrectSpawnInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<SpawnModel> {
    return toSpawn(await this.spawns.correct(input, person));
  }

  @Mutation(() => SpawnModel, { description: 'Withdraws a spawn that no recorded fish came from.' })
  async withdrawSpawn(
    @Args('input', { description: 'Which and why.' }) input: WithdrawInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<SpawnModel> {
    return toSpawn(await this.spawns.withdraw(input, person));
  }

  @Mutation(() => [FishModel], { description: 'Gives records to fish of a spawn.' })
  async addFishToSpawn(
    @Args('input', { description: 'How many, and how tagged.' }) input: AddFishToSpawnInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<FishModel[]> {
    return (await this.spawns.addFish(input, person)).map(toFish);
  }

  @Mutation(() => SpawnModel, {
    description:
      'Says of fish already recorded that they are full sibs: those without a spawn join the spawn of the others, or get a new one whose parents are unknown.',
  })
  async recordSibs(
    @Args('fishIds', { type: () => [ID], description: 'The sibs, two or more.' })
    fishIds: string[],
    @Args('tag', { description: 'Tag of the spawn, where one has to be made.' }) tag: string,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<SpawnModel> {
    return toSpawn(await this.sibs.record(fishIds, tag, person));
  }

  @Mutation(() => SpawnModel, { description: 'Records what happened in a spawn.' })
  async recordSpawnEvent(
    @Args('input', { description: 'The event.' }) input: SpawnEventInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<SpawnModel> {
    return toSpawn(await this.log.recordEvent(input, person));
  }

  @Mutation(() => SpawnModel, { description: 'Records a count of young at a stage.' })
  async recordSpawnCount(
    @Args('input', { description: 'The count.' }) input: SpawnCountInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<SpawnModel> {
    return toSpawn(await this.log.recordCount(input, person));
  }

  @Mutation(() => SpawnModel, { description: 'Records losses or culls as a count with a reason.' })
  async recordSpawnLoss(
    @Args('input', { description: 'The loss.' }) input: SpawnLossInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<SpawnModel> {
    return toSpawn(await this.log.recordLoss(input, person));
  }

  @Mutation(() => SpawnModel, { description: 'Records how many young showed a phenotype class.' })
  async recordClassCount(
    @Args('input', { description: 'The count.' }) input: ClassCountInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<SpawnModel> {
    return toSpawn(await this.log.recordClassCount(input, person));
  }

  @Mutation(() => SpawnModel, { description: 'Withdraws an event, count, loss or class count.' })
  async withdrawFromSpawnLog(
    @Args('input', { description: 'Which and why.' }) input: WithdrawFromSpawnLogInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<SpawnModel> {
    return toSpawn(await this.log.withdraw(input, person));
  }
}
