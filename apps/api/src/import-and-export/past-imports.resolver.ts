import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { After, First } from '../graphql/page.js';
import { CurrentAccount } from '../accounts/session.guard.js';
import { mapPage } from '../graphql/connection.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { toPastImport, toTakeBackPreview } from './import.mapper.js';
import {
  PastImportConnectionModel,
  PastImportModel,
  TakeBackPreviewModel,
} from './past-import.model.js';
import { PastImportsService } from './past-imports.service.js';

@Resolver()
export class PastImportsResolver {
  constructor(private readonly imports: PastImportsService) {}

  @Query(() => PastImportConnectionModel, {
    description: 'Pedigree files that were taken in, newest first, a page at a time.',
  })
  async pastImports(
    @CurrentAccount() account: SignedInPerson,
    @First() first: number,
    @After() after: string | null,
  ): Promise<PastImportConnectionModel> {
    return mapPage(await this.imports.list(account, first, after), toPastImport);
  }

  @Query(() => TakeBackPreviewModel, {
    description: 'What has come to rest on an import since, and what of it was changed.',
  })
  async takeBackPreview(
    @CurrentAccount() account: SignedInPerson,
    @Args('id', { type: () => ID, description: 'The import.' }) id: string,
  ): Promise<TakeBackPreviewModel> {
    return toTakeBackPreview(id, await this.imports.look(id, account));
  }

  @Mutation(() => PastImportModel, {
    description:
      'Takes an import back: withdraws all that it made, and frees its tags, line codes and trait keys. Refused while later records depend on it (IN_USE).',
  })
  async takeBackImport(
    @CurrentAccount() account: SignedInPerson,
    @Args('id', { type: () => ID, description: 'The import.' }) id: string,
    @Args('reason', { type: () => String, description: 'Why.' }) reason: string,
  ): Promise<PastImportModel> {
    return toPastImport(await this.imports.takeBack(id, reason, account));
  }
}
