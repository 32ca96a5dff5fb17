import { Args, Mutation, Resolver } from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { toShareReport } from './share.mapper.js';
import { ShareReportModel } from './share.model.js';
import { ShareService } from './share.service.js';

@Resolver()
export class ShareResolver {
  constructor(private readonly sharing: ShareService) {}

  @Mutation(() => ShareReportModel, {
    description: "Looks at a partner's line file and tells what it would bring. Writes nothing.",
  })
  async previewShare(
    @Args('text', { type: () => String, description: 'All of the text of the file.' }) text: string,
  ): Promise<ShareReportModel> {
    return toShareReport(await this.sharing.preview(text));
  }

  @Mutation(() => ShareReportModel, {
    description:
      "Takes a partner's line file in; records changed on both sides stay as they are here.",
  })
  async acceptShare(
    @CurrentPerson() person: SignedInPerson,
    @Args('text', { type: () => String, description: 'All of the text of the file.' }) text: string,
  ): Promise<ShareReportModel> {
    return toShareReport(await this.sharing.accept(text, person));
  }
}
