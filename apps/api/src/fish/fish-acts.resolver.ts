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
import { CurrentPerson } from '../accounts/session.guard.js';
import { mapPage } from '../graphql/connection.js';
import { After, First } from '../graphql/page.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { toRecordChange } from '../shapes/history.mapper.js';
import { RecordChangeModel } from '../shapes/history.model.js';
import { HistoryService } from '../stock/history.service.js';
import { FishActsService } from './fish-acts.service.js';
import { toFishAct, toFishActPreview } from './fish-act.mapper.js';
import {
  FishActConnectionModel,
  FishActModel,
  FishActPreviewModel,
  FishInTheWayModel,
} from './fish-act.model.js';
import { FishLoader } from '../stock/fish.loader.js';
import { toFish } from '../shapes/fish.mapper.js';
import { FishModel } from '../shapes/fish.model.js';
import { ChangeFishTogetherInput } from './fish-together.inputs.js';
import { FishTogetherService } from './fish-together.service.js';
import { compareTags } from '../stock/tag-order.js';

@Resolver(() => FishActModel)
export class FishActsResolver {
  constructor(
    private readonly together: FishTogetherService,
    private readonly acts: FishActsService,
    private readonly histories: HistoryService,
    private readonly loader: FishLoader,
  ) {}

  @Query(() => FishActConnectionModel, {
    description: 'Acts for several fish, newest first, a page at a time.',
  })
  async fishActs(
    @CurrentPerson() person: SignedInPerson,
    @First() first: number,
    @After() after: string | null,
  ): Promise<FishActConnectionModel> {
    return mapPage(await this.acts.list(person, first, after), toFishAct);
  }

  @Query(() => FishActModel, { description: 'One act for several fish.' })
  async fishAct(
    @Args('id', { type: () => ID, description: 'Its id.' }) id: string,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<FishActModel> {
    return toFishAct(await this.acts.one(id, person));
  }

  @Query(() => FishActPreviewModel, {
    description: 'What an act for several fish would change, and what stands in its way.',
  })
  async previewFishTogether(
    @Args('input', { description: 'Which fish, and what is done.' }) input: ChangeFishTogetherInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<FishActPreviewModel> {
    return toFishActPreview(await this.together.tryOut(input, person));
  }

  @Mutation(() => FishActModel, {
    description:
      'Moves several fish to a line, decides about them, or withdraws them: all of them or none. When some stand in the way, the error names each with its reason in `fish`.',
  })
  async changeFishTogether(
    @Args('input', { description: 'Which fish, and what is done.' }) input: ChangeFishTogetherInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<FishActModel> {
    return toFishAct(await this.together.change(input, person));
  }

  @Mutation(() => FishActModel, {
    description:
      'Takes an act for several fish back: puts each to what it was before, withdrawn ones too, or none. When some were changed since, the error names each with its reason in `fish`.',
  })
  async takeBackFishAct(
    @Args('id', { type: () => ID, description: 'The act.' }) id: string,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<FishActModel> {
    return toFishAct(await this.acts.takeBack(id, person));
  }

  @ResolveField(() => [FishModel], { description: 'The fish that it changed, by tag.' })
  async fish(@Parent() act: FishActModel, @Context() context: object): Promise<FishModel[]> {
    const ids = new Set(
      (await this.histories.ofAct(act.id, context)).map((change) => change.recordId),
    );
    const rows = await Promise.all([...ids].map((id) => this.loader.byId.of(context).load(id)));
    return rows
      .filter((row) => row !== null)
      .sort(compareTags)
      .map(toFish);
  }

  @ResolveField(() => [RecordChangeModel], {
    description: 'All that it changed and, once it is taken back, all that this put back.',
  })
  async history(
    @Parent() act: FishActModel,
    @Context() context: object,
  ): Promise<RecordChangeModel[]> {
    return (await this.histories.ofAct(act.id, context)).map(toRecordChange);
  }

  @ResolveField(() => [FishInTheWayModel], {
    description: 'The fish that keep it from being taken back now, by tag.',
  })
  async inTheWay(
    @Parent() act: FishActModel,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<FishInTheWayModel[]> {
    return [...(await this.acts.inTheWay(act.id, person))];
  }
}
