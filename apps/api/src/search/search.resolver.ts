import { Args, Query, Resolver } from '@nestjs/graphql';
import { FoundGroupModel } from './search.model.js';
import { SearchService } from './search.service.js';

@Resolver(() => FoundGroupModel)
export class SearchResolver {
  constructor(private readonly service: SearchService) {}

  @Query(() => [FoundGroupModel], {
    description: 'Records with a text in them, by kind: those kinds of which there is any.',
  })
  search(
    @Args('text', { type: () => String, description: 'Part of a tag, name or note.' }) text: string,
  ): Promise<FoundGroupModel[]> {
    return this.service.find(text);
  }
}
