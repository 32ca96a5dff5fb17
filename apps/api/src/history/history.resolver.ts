import { Args, ID, Int, Query, Resolver } from '@nestjs/graphql';
import { mapPage } from '../graphql/connection.js';
import { toHistoryEntry } from './history.mapper.js';
import { HistoryConnectionModel, HistoryEntryModel } from './history.model.js';
import { HistoryService } from './history.service.js';
import { recordKinds, type RecordKind } from './record-kind.js';

@Resolver(() => HistoryEntryModel)
export class HistoryResolver {
  constructor(private readonly histories: HistoryService) {}

  @Query(() => HistoryConnectionModel, {
    description: 'The history of one record, newest first, a page at a time.',
  })
  async history(
    @Args('recordKind', { type: () => recordKinds, description: 'Kind of the record.' })
    kind: RecordKind,
    @Args('recordId', { type: () => ID, description: 'Its id.' }) recordId: string,
    @Args('first', { type: () => Int, defaultValue: 50, description: 'How many.' }) first: number,
    @Args('after', { type: () => String, nullable: true, description: 'Cursor to start behind.' })
    after: string | null,
  ): Promise<HistoryConnectionModel> {
    return mapPage(await this.histories.page(kind, recordId, first, after), toHistoryEntry);
  }
}
