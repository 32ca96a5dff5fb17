import { Args, ID, Parent, Query, ResolveField, Resolver } from '@nestjs/graphql';
import type { YoungToKeep } from '@linewright/mating';
import { DataSource } from 'typeorm';
import { CurrentPerson } from '../accounts/session.guard.js';
import { pageOfList } from '../graphql/keyset.js';
import { After, First } from '../graphql/page.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { namedFish } from '../kinship/named-fish.js';
import { toBroodKeeping, toYoung } from './keeping.mapper.js';
import {
  BroodKeepingModel,
  YoungToKeepConnectionModel,
  YoungToKeepModel,
} from './keeping.model.js';
import { KeepingService, youngIn } from './keeping.service.js';

@Resolver(() => BroodKeepingModel)
export class KeepingResolver {
  constructor(
    private readonly keeping: KeepingService,
    private readonly dataSource: DataSource,
  ) {}

  @Query(() => BroodKeepingModel, {
    description:
      'Whom of a brood to keep: each young’s worth to what the line is for, the wanted alleles it may carry, and how many of each sex.',
  })
  async broodKeeping(
    @Args('spawnId', { type: () => ID, description: 'The brood.' }) spawnId: string,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<BroodKeepingModel> {
    return toBroodKeeping(await this.keeping.of(spawnId, person.name));
  }

  @ResolveField(() => YoungToKeepConnectionModel, {
    description: 'Its living young with a record, highest worth first.',
  })
  young(
    @Parent() { told: { answer } }: BroodKeepingModel,
    @First() first: number,
    @After() after: string | null,
  ): Promise<YoungToKeepConnectionModel> {
    return pageOfList(answer?.young ?? [], first, after, (young) => this.named(young));
  }

  @ResolveField(() => YoungToKeepModel, {
    nullable: true,
    description: 'One of its young; null for a fish that is not among them.',
  })
  async oneYoung(
    @Parent() { told: { answer } }: BroodKeepingModel,
    @Args('fishId', { type: () => ID, description: 'The young.' }) fishId: string,
  ): Promise<YoungToKeepModel | null> {
    const found = youngIn(answer, fishId);
    const [node] = found === null ? [] : await this.named([found]);
    return node ?? null;
  }

  private async named(list: readonly YoungToKeep[]): Promise<YoungToKeepModel[]> {
    const names = await namedFish(
      this.dataSource,
      list.map(({ id }) => id),
    );
    return list.map((one) => toYoung(one, names.get(one.id)!));
  }
}
