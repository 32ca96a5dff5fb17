import { Controller, Get, Header, Param, StreamableFile, UseGuards } from '@nestjs/common';
import { CurrentPerson, SessionGuard } from '../accounts/session.guard.js';
import { notFound } from '../errors/request-error.js';
import { isUuid } from '../limits/is-uuid.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { shareFileText } from './share-file.js';
import { ShareService } from './share.service.js';

@Controller('export')
@UseGuards(SessionGuard)
export class ShareController {
  constructor(private readonly sharing: ShareService) {}

  @Get('line/:id.json')
  @Header('cache-control', 'no-store')
  async line(
    @CurrentPerson() person: SignedInPerson,
    @Param('id') id: string,
  ): Promise<StreamableFile> {
    if (!isUuid(id)) throw notFound('line', id);
    const file = await this.sharing.exportLine(id, person);
    return new StreamableFile(Buffer.from(shareFileText(file)), {
      type: 'application/json; charset=utf-8',
      disposition: 'attachment; filename="line.json"',
    });
  }
}
