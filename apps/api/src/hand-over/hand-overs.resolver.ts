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
import { DataSource } from 'typeorm';
import { CurrentAccount } from '../accounts/session.guard.js';
import { PersonModel } from '../accounts/session.model.js';
import { Clock } from '../clock/clock.js';
import { notFound } from '../errors/request-error.js';
import { mapPage } from '../graphql/connection.js';
import { DateScalar } from '../graphql/date.scalar.js';
import { After, First } from '../graphql/page.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { toFish } from '../shapes/fish.mapper.js';
import { FishModel } from '../shapes/fish.model.js';
import { FishLoader } from '../stock/fish.loader.js';
import { HandOverLoader } from '../stock/hand-over.loader.js';
import {
  handOverPage,
  handOversById,
  handOversDue,
  knownAccounts,
} from '../stock/hand-over-rows.js';
import { PersonLoader } from '../stock/person.loader.js';
import type { HandOverRow } from '../stock/rows/hand-over.entity.js';
import { AnswersService } from './answers.service.js';
import { AcceptFishInput, LoanReturnInput, OfferFishInput } from './hand-over.inputs.js';
import { toHandOver } from './hand-over.mapper.js';
import { HandOverConnectionModel, HandOverModel, LaterSpawnModel } from './hand-over.model.js';
import { LoansService } from './loans.service.js';
import { OffersService } from './offers.service.js';

const IDS = { type: () => [ID], description: 'The hand-overs: all of them or none.' } as const;
const WORD = { type: () => String, nullable: true, description: 'A word about it.' } as const;

/** Fish offered, taken, declined; lent ones and their way back. */
@Resolver(() => HandOverModel)
export class HandOversResolver {
  constructor(
    private readonly dataSource: DataSource,
    private readonly offers: OffersService,
    private readonly answers: AnswersService,
    private readonly loans: LoansService,
    private readonly clock: Clock,
  ) {}

  @Query(() => HandOverConnectionModel, {
    description:
      'Hand-overs by or to whoever asks, the latest first; of one fish, all that they may see.',
  })
  async handOvers(
    @CurrentAccount() account: SignedInPerson,
    @First() first: number,
    @After() after: string | null,
    @Args('fishId', { type: () => ID, nullable: true, description: 'Of this fish.' })
    fishId?: string | null,
    @Args('groupId', { type: () => ID, nullable: true, description: 'Offered together as this.' })
    groupId?: string | null,
  ): Promise<HandOverConnectionModel> {
    const of = { fishId: fishId ?? null, groupId: groupId ?? null };
    const page = await handOverPage(this.dataSource, of, account.keepsFor, { first, after });
    return mapPage(page, (row) => toHandOver(row, account.keepsFor));
  }

  @Query(() => HandOverModel, { description: 'One hand-over.' })
  async handOver(
    @Args('id', { type: () => ID, description: 'Its id.' }) id: string,
    @CurrentAccount() account: SignedInPerson,
  ): Promise<HandOverModel> {
    const [row] = await handOversById(this.dataSource.manager, [id]);
    if (row === undefined) throw notFound('hand-over', id);
    return toHandOver(row, account.keepsFor);
  }

  @Query(() => [HandOverModel], {
    description:
      'What is to be done about hand-overs: offers to answer, fish that come back, loans whose day has come, and fish in quarantine.',
  })
  async handOversDue(
    @CurrentAccount() account: SignedInPerson,
    @Args('on', {
      type: () => DateScalar,
      nullable: true,
      description: 'By this day; today when absent.',
    })
    on?: string | null,
  ): Promise<HandOverModel[]> {
    const day = on ?? this.clock.today();
    return this.told(handOversDue(this.dataSource.manager, account.keepsFor, day), account);
  }

  @Query(() => [PersonModel], {
    description: 'People to whom whoever asks can offer fish, as far as they know of each other.',
  })
  fishReceivers(@CurrentAccount() account: SignedInPerson): Promise<PersonModel[]> {
    return knownAccounts(this.dataSource.manager, account.keepsFor);
  }

  @Mutation(() => [HandOverModel], {
    description:
      'Offers fish to one person: all of them or none. They move once the receiver has accepted.',
  })
  offerFish(
    @Args('input', { description: 'Which, to whom and how.' }) input: OfferFishInput,
    @CurrentAccount() account: SignedInPerson,
  ): Promise<HandOverModel[]> {
    return this.told(this.offers.offer(input, account), account);
  }

  @Mutation(() => [HandOverModel], {
    description: 'Takes back offers that were not answered: all of them or none.',
  })
  takeBackOffers(
    @Args('ids', IDS) ids: string[],
    @CurrentAccount() account: SignedInPerson,
    @Args('reason', { type: () => String, nullable: true, description: 'Why.' })
    reason?: string | null,
  ): Promise<HandOverModel[]> {
    return this.told(this.offers.takeBack(ids, reason ?? null, account), account);
  }

  @Mutation(() => [HandOverModel], {
    description: 'Takes offered fish: all of those named, or none.',
  })
  acceptFish(
    @Args('input', { description: 'Which, and what is said.' }) input: AcceptFishInput,
    @CurrentAccount() account: SignedInPerson,
  ): Promise<HandOverModel[]> {
    return this.told(this.answers.accept(input, account), account);
  }

  @Mutation(() => [HandOverModel], { description: 'Declines offered fish.' })
  declineFish(
    @Args('ids', IDS) ids: string[],
    @CurrentAccount() account: SignedInPerson,
    @Args('word', WORD) word?: string | null,
  ): Promise<HandOverModel[]> {
    return this.told(this.answers.decline(ids, word ?? null, account), account);
  }

  @Mutation(() => HandOverModel, {
    description: 'The borrower says that a lent fish comes back, or died; the lender confirms it.',
  })
  sayLoanReturned(
    @Args('input', { description: 'Which, how and when.' }) input: LoanReturnInput,
    @CurrentAccount() account: SignedInPerson,
  ): Promise<HandOverModel> {
    return this.one(this.loans.sayReturned(input, account), account);
  }

  @Mutation(() => HandOverModel, {
    description: 'The lender says that a lent fish is back, or died: the loan is at its end.',
  })
  endLoan(
    @Args('input', { description: 'Which, how and when.' }) input: LoanReturnInput,
    @CurrentAccount() account: SignedInPerson,
  ): Promise<HandOverModel> {
    return this.one(this.loans.end(input, account), account);
  }

  @Mutation(() => HandOverModel, {
    description: 'The lender sets another day on which a lent fish is to be back.',
  })
  putOffLoan(
    @Args('id', { type: () => ID, description: 'The hand-over.' }) id: string,
    @Args('backOn', { type: () => DateScalar, description: 'The day.' }) backOn: string,
    @CurrentAccount() account: SignedInPerson,
  ): Promise<HandOverModel> {
    return this.one(this.loans.putOff(id, backOn, account), account);
  }

  private async told(
    rows: Promise<readonly HandOverRow[]>,
    { keepsFor }: SignedInPerson,
  ): Promise<HandOverModel[]> {
    return (await rows).map((row) => toHandOver(row, keepsFor));
  }

  private async one(
    row: Promise<HandOverRow>,
    { keepsFor }: SignedInPerson,
  ): Promise<HandOverModel> {
    return toHandOver(await row, keepsFor);
  }
}

/** What hangs on a hand-over, loaded in batches. */
@Resolver(() => HandOverModel)
export class HandOverFieldsResolver {
  constructor(
    private readonly fishLoader: FishLoader,
    private readonly people: PersonLoader,
    private readonly loader: HandOverLoader,
  ) {}

  @ResolveField(() => FishModel, {
    nullable: true,
    description: 'The fish, where whoever asks may see its record.',
  })
  async fish(
    @Parent() { fishId }: HandOverModel,
    @Context() context: object,
  ): Promise<FishModel | null> {
    const row = await this.fishLoader.byId.of(context).load(fishId);
    return row === null ? null : toFish(row);
  }

  @ResolveField(() => PersonModel, { description: 'The giver.' })
  from(@Parent() { fromId }: HandOverModel, @Context() context: object): Promise<PersonModel> {
    return this.people.known(fromId, context);
  }

  @ResolveField(() => PersonModel, {
    nullable: true,
    description: 'The receiver; null to the giver until they have answered.',
  })
  to(@Parent() { toId }: HandOverModel, @Context() context: object): Promise<PersonModel | null> {
    return toId === null ? Promise.resolve(null) : this.people.byId.of(context).load(toId);
  }

  @ResolveField(() => [LaterSpawnModel], {
    description:
      'Spawns of the fish since it moved, where the offer said that the giver sees them: parents, day and counts.',
  })
  laterSpawns(
    @Parent() { id, laterSpawnsAgreed, fishId, movedOn, endedOn }: HandOverModel,
    @Context() context: object,
  ): Promise<LaterSpawnModel[]> {
    if (!laterSpawnsAgreed) return Promise.resolve([]);
    return this.loader.laterSpawns.of(context).load({ id, fishId, movedOn, endedOn }) as Promise<
      LaterSpawnModel[]
    >;
  }
}

/** Where a fish is on its way. */
@Resolver(() => FishModel)
export class FishHandOversResolver {
  constructor(private readonly loader: HandOverLoader) {}

  @ResolveField(() => [HandOverModel], {
    description:
      'Offers of it that wait, and hand-overs by which it is where it is; as far as whoever asks may see them.',
  })
  async handOvers(
    @Parent() { id }: FishModel,
    @CurrentAccount() account: SignedInPerson,
    @Context() context: object,
  ): Promise<HandOverModel[]> {
    const rows = await this.loader.byFish.of(context).load(id);
    return rows.map((row) => toHandOver(row, account.keepsFor));
  }
}
