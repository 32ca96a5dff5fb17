import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { mapPage } from '../graphql/connection.js';
import { After, First } from '../graphql/page.js';
import {
  DecideDifferenceInput,
  RecordDifferencesConnectionModel,
  RecordDifferencesModel,
} from './difference.model.js';
import { DifferencesService } from './differences.service.js';
import { toRecordDifferences, toShareReport } from './share.mapper.js';
import { ShareReportModel } from './share.model.js';
import { ShareService } from './share.service.js';

const SENT = 'The id under which the file was sent: PUT /line-files/ID.';

@Resolver()
export class ShareResolver {
  constructor(
    private readonly sharing: ShareService,
    private readonly differing: DifferencesService,
  ) {}

  @Mutation(() => ShareReportModel, {
    description: "Looks at a partner's line file and tells what it would bring. Writes nothing.",
  })
  async previewShare(
    @Args('file', { type: () => ID, description: SENT }) file: string,
  ): Promise<ShareReportModel> {
    return toShareReport(await this.sharing.preview(file));
  }

  @Mutation(() => ShareReportModel, {
    description:
      "Takes a partner's line file in; records changed on both sides stay as they are here.",
  })
  async acceptShare(
    @CurrentPerson() person: SignedInPerson,
    @Args('file', { type: () => ID, description: SENT }) file: string,
  ): Promise<ShareReportModel> {
    return toShareReport(await this.sharing.accept(file, person));
  }

  @Query(() => RecordDifferencesConnectionModel, {
    description:
      'Records that were changed in several installs at once and wait for a decision, a page at a time. A record without differences was changed here since, which decides it.',
  })
  async differences(
    @First() first: number,
    @After() after: string | null,
  ): Promise<RecordDifferencesConnectionModel> {
    return mapPage(await this.differing.list(first, after), toRecordDifferences);
  }

  @Mutation(() => RecordDifferencesModel, {
    description:
      'Decides which version of a part of a record holds. The decision goes out with the line and replaces the other versions there too. Refused where it was decided meanwhile (CONFLICT_REVISION).',
  })
  async decideDifference(
    @CurrentPerson() person: SignedInPerson,
    @Args('input', { description: 'The decision.' }) input: DecideDifferenceInput,
  ): Promise<RecordDifferencesModel> {
    return toRecordDifferences(await this.differing.decide(input, person));
  }
}
