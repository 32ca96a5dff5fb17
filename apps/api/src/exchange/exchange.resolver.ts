import { Args, Mutation, Resolver } from '@nestjs/graphql';
import { CurrentKeeper } from '../accounts/session.guard.js';
import type { SignedInKeeper } from '../graphql/request-context.js';
import { toPreview } from './exchange.mapper.js';
import { ImportColumnInput, ImportPreviewModel, ImportResultModel } from './exchange.model.js';
import { ExchangeService } from './exchange.service.js';

@Resolver()
export class ExchangeResolver {
  constructor(private readonly exchange: ExchangeService) {}

  @Mutation(() => ImportPreviewModel, {
    description: 'Looks at a pedigree file and tells what its import would do. Writes nothing.',
  })
  async previewImport(
    @CurrentKeeper() keeper: SignedInKeeper,
    @Args('fileName', { type: () => String, description: 'Name of the file.' }) fileName: string,
    @Args('text', { type: () => String, description: 'All of its text.' }) text: string,
    @Args('columns', {
      type: () => [ImportColumnInput],
      nullable: true,
      description:
        'What columns are to be read as; a column left out is read as its header suggests.',
    })
    columns: ImportColumnInput[] | null,
  ): Promise<ImportPreviewModel> {
    const plan = await this.exchange.plan(text, columns ?? [], keeper);
    return toPreview(plan, {
      fileName,
      token: this.exchange.tokenOf(text),
      sampleRows: this.exchange.sampleRows(text),
    });
  }

  @Mutation(() => ImportResultModel, {
    description:
      'Takes a pedigree file in: all of it, or nothing when there is any problem (IMPORT_INVALID).',
  })
  confirmImport(
    @CurrentKeeper() keeper: SignedInKeeper,
    @Args('fileName', { type: () => String, description: 'Name of the file.' }) fileName: string,
    @Args('text', { type: () => String, description: 'All of its text.' }) text: string,
    @Args('columns', {
      type: () => [ImportColumnInput],
      description: 'What columns are to be read as, as previewed.',
    })
    columns: ImportColumnInput[],
  ): Promise<ImportResultModel> {
    return this.exchange.confirm(fileName, text, columns, keeper);
  }
}
