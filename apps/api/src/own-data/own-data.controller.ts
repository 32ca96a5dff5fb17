import { Controller, Get, Header, StreamableFile, UseGuards } from '@nestjs/common';
import { CurrentAccount, ForAnyAccount, SessionGuard } from '../accounts/session.guard.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { OwnDataService } from './own-data.service.js';

@Controller('export/own-data.zip')
@UseGuards(SessionGuard)
export class OwnDataController {
  constructor(private readonly own: OwnDataService) {}

  /** Everything that is recorded of whoever asks. */
  @Get()
  @ForAnyAccount()
  @Header('cache-control', 'no-store')
  async file(@CurrentAccount() account: SignedInPerson): Promise<StreamableFile> {
    return new StreamableFile(await this.own.file(account), {
      type: 'application/zip',
      disposition: 'attachment; filename="own-data.zip"',
    });
  }
}
