import { Args, Mutation, Resolver } from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { EntriesService } from './entries.service.js';
import { toReceivedEntry } from './entry.mapper.js';
import { ReceivedEntryModel, UndoEntryInput } from './entry.model.js';

@Resolver(() => ReceivedEntryModel)
export class EntriesResolver {
  constructor(private readonly entries: EntriesService) {}

  @Mutation(() => ReceivedEntryModel, {
    description:
      'Takes back what one entry did: withdraws what it recorded, restores what it changed.',
  })
  async undoEntry(
    @Args('input', { description: 'Which.' }) input: UndoEntryInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<ReceivedEntryModel> {
    return toReceivedEntry(await this.entries.undo(input, person));
  }
}
