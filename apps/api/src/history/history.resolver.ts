import { Args, ID, Query, Resolver } from '@nestjs/graphql';
import { toHistoryEntry } from '../shapes/history.mapper.js';
import { HistoryEntryModel } from '../shapes/history.model.js';
import { HistoryService } from '../stock/history.service.js';
import { recordKinds, type RecordKind } from '../database/record-kind.js';

@Resolver(() => HistoryEntryModel)
export class HistoryResolver {
  constructor(private readonly histories: HistoryService) {}

  @Query(() => [HistoryEntryModel], { description: 'The history of one record, newest first.' })
  async history(
    @Args('recordKind', { type: () => recordKinds, description: 'Kind of the record.' })
    kind: RecordKind,
    @Args('recordId', { type: () => ID, description: 'Its id.' }) recordId: string,
  ): Promise<HistoryEntryModel[]> {
    return (await this.histories.of(recordId))
      .filter((r) => r.recordKind === kind)
      .map(toHistoryEntry);
  }
}
