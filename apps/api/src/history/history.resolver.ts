import { Args, ID, Query, Resolver } from '@nestjs/graphql';
import { After, First } from '../graphql/page.js';
import { toRecordChange } from '../shapes/history.mapper.js';
import { RecordChangeModel, HistoryConnectionModel } from '../shapes/history.model.js';
import { HistoryService } from '../stock/history.service.js';
import { recordKinds, type RecordKind } from '../database/record-kind.js';
import { mapPage } from '../graphql/connection.js';

@Resolver(() => RecordChangeModel)
export class HistoryResolver {
  constructor(private readonly histories: HistoryService) {}

  @Query(() => HistoryConnectionModel, {
    description: 'The history of one record, newest first, a page at a time.',
  })
  async history(
    @Args('recordKind', { type: () => recordKinds, description: 'Kind of the record.' })
    kind: RecordKind,
    @Args('recordId', { type: () => ID, description: 'Its id.' }) recordId: string,
    @First() first: number,
    @After() after: string | null,
  ): Promise<HistoryConnectionModel> {
    return mapPage(
      await this.histories.page(kind, recordId, first, after ?? undefined),
      toRecordChange,
    );
  }
}
