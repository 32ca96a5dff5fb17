import {
  Controller,
  Get,
  Header,
  HttpCode,
  Param,
  Put,
  Query,
  Req,
  StreamableFile,
  UseGuards,
} from '@nestjs/common';
import type { Request } from 'express';
import { seesByGrant } from '../access/actor.js';
import { expectSameOrigin } from '../accounts/same-origin.js';
import { CurrentPerson, SessionGuard } from '../accounts/session.guard.js';
import { fieldError, notFound, RequestError } from '../errors/request-error.js';
import { isUuid } from '../limits/is-uuid.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { ReceivedFiles } from './line-file/received-files.js';
import { ShareService } from './share.service.js';

/** Files go in and out for those who see all records; a partner with an account sees the line itself. */
const expectWhole = ({ role }: SignedInPerson): void => {
  if (!seesByGrant(role)) return;
  throw new RequestError(
    'NOT_ALLOWED',
    'Line files are given and taken by the owner of the records and their household.',
  );
};

@Controller()
@UseGuards(SessionGuard)
export class ShareController {
  constructor(
    private readonly sharing: ShareService,
    private readonly received: ReceivedFiles,
  ) {}

  /** `GET /export/line/UUID.zip?photos=yes&plans=yes`: the line with what was wished for. */
  @Get('export/line/:id.zip')
  @Header('cache-control', 'no-store')
  async line(
    @CurrentPerson() person: SignedInPerson,
    @Param('id') id: string,
    @Query() { photos, plans }: Record<string, string | undefined>,
  ): Promise<StreamableFile> {
    expectWhole(person);
    if (!isUuid(id)) throw notFound('line', id);
    const wished = { photos: photos === 'yes', carePlans: plans === 'yes' };
    return new StreamableFile(await this.sharing.lineFile(id, person, wished), {
      type: 'application/zip',
      disposition: 'attachment; filename="line.zip"',
    });
  }

  /** A line file's bytes as the body; then it is looked at and taken in by its id. Sent again under the same id, the later one counts. */
  @Put('line-files/:id')
  @HttpCode(204)
  async send(
    @CurrentPerson() person: SignedInPerson,
    @Req() req: Request,
    @Param('id') id: string,
  ): Promise<void> {
    expectWhole(person);
    expectSameOrigin(req);
    if (!isUuid(id))
      throw fieldError({ field: 'id', message: `"${id}" is not an id: give a UUID.` });
    await this.received.keep(id.toLowerCase(), req);
  }
}
