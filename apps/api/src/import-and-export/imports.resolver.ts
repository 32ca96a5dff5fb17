import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { After, First } from '../graphql/page.js';
import { CurrentAccount } from '../accounts/session.guard.js';
import { mapPage } from '../graphql/connection.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { fromRepairs, toImportRun } from './import.mapper.js';
import { ImportRepairsInput } from './import-repairs.model.js';
import {
  BeginImportInput,
  ImportColumnInput,
  ImportPreviewModel,
  ImportResultModel,
  ImportRunConnectionModel,
  ImportRunModel,
} from './import.model.js';
import { ImportsService } from './imports.service.js';
import { ImportRunsService } from './import-runs.service.js';

const given = (repairs: ImportRepairsInput | null | undefined) =>
  repairs === null || repairs === undefined ? null : fromRepairs(repairs);

@Resolver()
export class ImportsResolver {
  constructor(
    private readonly imports: ImportsService,
    private readonly runs: ImportRunsService,
  ) {}

  @Mutation(() => ImportPreviewModel, {
    description:
      'Looks at a pedigree file and tells what its import would do. Writes nothing. A file too large to wait for is refused (IMPORT_LONG): use beginImport.',
  })
  previewImport(
    @CurrentAccount() account: SignedInPerson,
    @Args('fileName', { type: () => String, description: 'Name of the file.' }) fileName: string,
    @Args('text', { type: () => String, description: 'All of its text.' }) text: string,
    @Args('columns', {
      type: () => [ImportColumnInput],
      nullable: true,
      description:
        'What columns are to be read as; a column not named here is read as its header suggests.',
    })
    columns: ImportColumnInput[] | null,
    @Args('repairs', {
      type: () => ImportRepairsInput,
      nullable: true,
      description:
        'What was decided about it. Without columns and repairs, what was decided about the last file of the same columns is taken over.',
    })
    repairs: ImportRepairsInput | null,
  ): Promise<ImportPreviewModel> {
    this.runs.expectShort(text, 'look');
    return this.imports.look(
      { ...{ fileName, text }, columns: columns ?? null, repairs: given(repairs) },
      account,
    );
  }

  @Mutation(() => ImportResultModel, {
    description:
      'Takes a pedigree file in: all of it, or nothing when there is any problem (IMPORT_INVALID). A file too large to wait for is refused (IMPORT_LONG): use beginImport.',
  })
  confirmImport(
    @CurrentAccount() account: SignedInPerson,
    @Args('fileName', { type: () => String, description: 'Name of the file.' }) fileName: string,
    @Args('text', { type: () => String, description: 'All of its text.' }) text: string,
    @Args('columns', {
      type: () => [ImportColumnInput],
      description: 'What columns are to be read as, as previewed.',
    })
    columns: ImportColumnInput[],
    @Args('repairs', {
      type: () => ImportRepairsInput,
      nullable: true,
      description: 'What was decided about it, as previewed.',
    })
    repairs: ImportRepairsInput | null,
  ): Promise<ImportResultModel> {
    this.runs.expectShort(text, 'take');
    return this.imports.take({ fileName, text, columns, repairs: given(repairs) }, account);
  }

  @Mutation(() => ImportRunModel, {
    description:
      'Looks at a pedigree file of any size, or takes it in. A small one is answered at once, a large one by a long computation: ask importRun, or stop it with cancelComputation. All of a file is saved, or nothing.',
  })
  async beginImport(
    @CurrentAccount() account: SignedInPerson,
    @Args('input', { type: () => BeginImportInput, description: 'The file.' })
    { id, purpose, fileName, text, columns, repairs }: BeginImportInput,
  ): Promise<ImportRunModel> {
    const file = { fileName, text, columns: columns ?? null, repairs: given(repairs) };
    return toImportRun(await this.runs.begin(id, purpose, file, account));
  }

  @Query(() => ImportRunModel, { description: 'How far a large file is, and what came out.' })
  async importRun(
    @CurrentAccount() account: SignedInPerson,
    @Args('id', { type: () => ID, description: 'The UUID it was begun under.' }) id: string,
  ): Promise<ImportRunModel> {
    return toImportRun(await this.runs.one(id, account));
  }

  @Query(() => ImportRunConnectionModel, {
    description:
      'Large files being taken in, or taken in within 30 days, newest first, a page at a time.',
  })
  async importRuns(
    @CurrentAccount() account: SignedInPerson,
    @First(10) first: number,
    @After() after: string | null,
  ): Promise<ImportRunConnectionModel> {
    return mapPage(await this.runs.list(account, first, after), toImportRun);
  }
}
