import { Args, Context, Mutation, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { WithdrawInput } from '../graphql/withdraw.input.js';
import { FishModel } from '../shapes/fish.model.js';
import { toWithdrawal } from '../shapes/history.model.js';
import type { ShowResultRow } from '../stock/rows/show-result.entity.js';
import { ShowLoader } from '../stock/show.loader.js';
import { CorrectShowResultInput, RecordShowResultInput, ShowResultModel } from './show.model.js';
import { ShowsService } from './shows.service.js';

const toShowResult = (row: ShowResultRow): ShowResultModel => ({
  ...{ id: row.id, revision: row.revision, withdrawn: toWithdrawal(row) },
  ...{ show: row.show, onDate: row.onDate, class: row.class },
  ...{ placing: row.placing, points: row.points, note: row.note },
});

@Resolver(() => FishModel)
export class ShowsResolver {
  constructor(
    private readonly service: ShowsService,
    private readonly loader: ShowLoader,
  ) {}

  @ResolveField(() => [ShowResultModel], {
    description: 'What it won at shows, the newest first.',
  })
  async showResults(
    @Parent() { id }: FishModel,
    @Context() context: object,
  ): Promise<ShowResultModel[]> {
    return (await this.loader.ofFish.of(context).load(id)).map(toShowResult);
  }

  @Mutation(() => ShowResultModel, { description: 'Records what a fish won at a show.' })
  async recordShowResult(
    @Args('input', { description: 'What.' }) input: RecordShowResultInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<ShowResultModel> {
    return toShowResult(await this.service.record(input, person));
  }

  @Mutation(() => ShowResultModel, { description: 'Corrects a result of a show.' })
  async correctShowResult(
    @Args('input', { description: 'What changes.' }) input: CorrectShowResultInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<ShowResultModel> {
    return toShowResult(await this.service.correct(input, person));
  }

  @Mutation(() => ShowResultModel, { description: 'Withdraws a result of a show.' })
  async withdrawShowResult(
    @Args('input', { description: 'Which and why.' }) input: WithdrawInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<ShowResultModel> {
    return toShowResult(await this.service.withdraw(input, person));
  }
}
