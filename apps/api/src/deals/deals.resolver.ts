import { Args, Context, Mutation, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { WithdrawInput } from '../graphql/withdraw.input.js';
import { FishModel } from '../shapes/fish.model.js';
import { toWithdrawal } from '../shapes/history.model.js';
import { DealLoader } from '../stock/deal.loader.js';
import type { FishDealRow } from '../stock/rows/fish-deal.entity.js';
import { CorrectFishDealInput, FishDealModel, RecordFishDealInput } from './deal.model.js';
import { DealsService } from './deals.service.js';

const toDeal = (row: FishDealRow, by: SignedInPerson): FishDealModel => ({
  ...{ id: row.id, revision: row.revision, withdrawn: toWithdrawal(row) },
  ...{ kind: row.kind, onDate: row.onDate, amount: row.amount, currency: row.currency },
  ...{ withWhom: row.withWhom, note: row.note, mine: row.personId === by.id },
});

@Resolver(() => FishModel)
export class DealsResolver {
  constructor(
    private readonly service: DealsService,
    private readonly loader: DealLoader,
  ) {}

  @ResolveField(() => [FishDealModel], {
    description: 'What was paid, asked and got for it, the newest first.',
  })
  async deals(
    @Parent() { id }: FishModel,
    @Context() context: object,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<FishDealModel[]> {
    return (await this.loader.ofFish.of(context).load(id)).map((row) => toDeal(row, person));
  }

  @Mutation(() => FishDealModel, { description: 'Records what was paid, asked or got for a fish.' })
  async recordFishDeal(
    @Args('input', { description: 'What.' }) input: RecordFishDealInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<FishDealModel> {
    return toDeal(await this.service.record(input, person), person);
  }

  @Mutation(() => FishDealModel, { description: 'Corrects one of your own.' })
  async correctFishDeal(
    @Args('input', { description: 'What changes.' }) input: CorrectFishDealInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<FishDealModel> {
    return toDeal(await this.service.correct(input, person), person);
  }

  @Mutation(() => FishDealModel, { description: 'Withdraws one of your own.' })
  async withdrawFishDeal(
    @Args('input', { description: 'Which and why.' }) input: WithdrawInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<FishDealModel> {
    return toDeal(await this.service.withdraw(input, person), person);
  }
}
