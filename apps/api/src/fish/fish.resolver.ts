import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { After, First } from '../graphql/page.js';
import { CurrentPerson } from '../accounts/session.guard.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { WithdrawInput } from '../graphql/withdraw.input.js';
import {
  CorrectFishInput,
  CreateFishInput,
  DecideFishInput,
  FishFilter,
  FishSort,
} from './fish.inputs.js';
import { toFish } from '../shapes/fish.mapper.js';
import { FishConnectionModel, FishModel } from '../shapes/fish.model.js';
import { FishService } from './fish.service.js';

@Resolver(() => FishModel)
export class FishResolver {
  constructor(private readonly service: FishService) {}

  @Query(() => FishModel, { description: 'One fish.' })
  async fish(
    @Args('id', { type: () => ID, description: 'Its id.' }) id: string,
  ): Promise<FishModel> {
    return toFish(await this.service.one(id));
  }

  @Query(() => FishModel, {
    nullable: true,
    description: "One fish by tag; the owner's own before a partner's.",
  })
  async fishByTag(
    @Args('tag', { type: () => String, description: 'Its tag.' }) tag: string,
  ): Promise<FishModel | null> {
    const row = await this.service.byTag(tag);
    return row === null ? null : toFish(row);
  }

  @Query(() => FishConnectionModel, { description: 'Fish, filtered and sorted, a page at a time.' })
  async fishList(
    @Args('filter', { type: () => FishFilter, nullable: true, description: 'Which.' })
    filter: FishFilter | null,
    @Args('sort', {
      type: () => FishSort,
      nullable: true,
      description: 'In what order; by tag when absent.',
    })
    sort: FishSort | null,
    @First() first: number,
    @After() after: string | null,
  ): Promise<FishConnectionModel> {
    const order = sort ?? { field: 'TAG', direction: 'ASC' };
    const page = await this.service.list(filter ?? {}, order, first, after ?? undefined);
    return {
      ...page,
      edges: page.edges.map(({ cursor, node }) => ({ cursor, node: toFish(node) })),
    };
  }

  @Mutation(() => FishModel, { description: 'Records a new fish.' })
  async createFish(
    @Args('input', { description: 'The fish.' }) input: CreateFishInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<FishModel> {
    return toFish(await this.service.create(input, person));
  }

  @Mutation(() => FishModel, { description: 'Corrects a fish.' })
  async correctFish(
    @Args('input', { description: 'What changes.' }) input: CorrectFishInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<FishModel> {
    return toFish(await this.service.correct(input, person));
  }

  @Mutation(() => FishModel, {
    description: 'Keeps, holds, culls or places a fish, or records its death.',
  })
  async decideFish(
    @Args('input', { description: 'The decision.' }) input: DecideFishInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<FishModel> {
    return toFish(await this.service.decide(input, person));
  }

  @Mutation(() => FishModel, { description: 'Withdraws a fish that has no young on record.' })
  async withdrawFish(
    @Args('input', { description: 'Which and why.' }) input: WithdrawInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<FishModel> {
    return toFish(await this.service.withdraw(input, person));
  }
}
