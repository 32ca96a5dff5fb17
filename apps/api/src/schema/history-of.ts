import type { Type } from '@nestjs/common';
import { Context, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { toRecordChange } from '../shapes/history.mapper.js';
import { RecordChangeModel } from '../shapes/history.model.js';
import { HistoryService } from '../stock/history.service.js';

/** The field `history` of a type of records. */
export const historyOf = (model: Type<{ id: string }>): Type => {
  @Resolver(() => model)
  class HistoryFieldResolver {
    constructor(private readonly histories: HistoryService) {}

    @ResolveField(() => [RecordChangeModel], {
      description:
        'Every change of its record, newest first; refused beyond 500, which the query history reads.',
    })
    async history(
      @Parent() record: { id: string },
      @Context() context: object,
    ): Promise<RecordChangeModel[]> {
      return (await this.histories.of(record.id, context)).map(toRecordChange);
    }
  }
  return HistoryFieldResolver;
};
