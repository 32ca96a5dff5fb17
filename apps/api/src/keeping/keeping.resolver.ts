import { Args, ID, Parent, Query, ResolveField, Resolver } from '@nestjs/graphql';
import type { YoungToKeep } from '@linewright/mating';
import { DataSource } from 'typeorm';
import { CurrentPerson } from '../accounts/session.guard.js';
import { pageSize, readCursor, writeCursor, After, First } from '../graphql/page.js';
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
  async young(
    @Parent() { told: { answer } }: BroodKeepingModel,
    @First() first: number,
    @After() after: string | null,
  ): Promise<YoungToKeepConnectionModel> {
    const size = pageSize(first);
    const all = answer?.young ?? [];
    const behind = after == null ? null : readCursor(after).id;
    const from = behind === null ? 0 : 1 + all.findIndex(({ id }) => id === behind);
    const page = all.slice(from, from + size);
    const nodes = await this.named(page);
    const edges = nodes.map((node) => ({ cursor: writeCursor(null, node.fish.id), node }));
    return {
      ...{ edges, totalCount: all.length },
      pageInfo: {
        hasNextPage: from + size < all.length,
        endCursor: edges.at(-1)?.cursor ?? null,
      },
    };
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
