import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { CurrentAccount } from '../accounts/session.guard.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { SavedSearchModel, SaveSearchInput } from './saved-search.model.js';
import { SavedSearches } from './saved-searches.service.js';

@Resolver(() => SavedSearchModel)
export class SavedSearchesResolver {
  constructor(private readonly searches: SavedSearches) {}

  @Query(() => [SavedSearchModel], {
    description: 'Searches that whoever asks has saved, by name.',
  })
  savedSearches(@CurrentAccount() { id }: SignedInPerson): Promise<SavedSearchModel[]> {
    return this.searches.of(id);
  }

  @Mutation(() => [SavedSearchModel], {
    description: 'Saves a search, in place of one of the same name; answers all that are saved.',
  })
  saveSearch(
    @CurrentAccount() { id }: SignedInPerson,
    @Args('input', { description: 'Its name and filter.' }) input: SaveSearchInput,
  ): Promise<SavedSearchModel[]> {
    return this.searches.save(id, input);
  }

  @Mutation(() => [SavedSearchModel], {
    description: 'Removes a saved search; answers those that are left.',
  })
  removeSavedSearch(
    @CurrentAccount() person: SignedInPerson,
    @Args('id', { type: () => ID, description: 'Id of the saved search.' }) id: string,
  ): Promise<SavedSearchModel[]> {
    return this.searches.remove(person.id, id);
  }
}
