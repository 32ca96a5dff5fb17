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
import type { Readable } from 'node:stream';
import type { Request } from 'express';
import { seesByGrant } from '../access/actor.js';
import { grantParts } from '../access/grant.js';
import { expectSameOrigin } from '../accounts/same-origin.js';
import { CurrentPerson, SessionGuard } from '../accounts/session.guard.js';
import { fieldError, notFound, RequestError } from '../errors/request-error.js';
import { isUuid } from '../limits/is-uuid.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { GivenFilesService } from './exchange/given-files.service.js';
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
    private readonly given: GivenFilesService,
  ) {}

  /**
   * `GET /export/line/UUID.zip?photos=yes&plans=yes&prices=yes`: the whole line with what was wished for. With `for=UUID` what was granted to that
   * partner; with `parts=scores,notes` (and `ancestors=named`) those parts of it.
   */
  @Get('export/line/:id.zip')
  @Header('cache-control', 'no-store')
  async line(
    @CurrentPerson() person: SignedInPerson,
    @Param('id') id: string,
    @Query() asked: Record<string, string | undefined>,
  ): Promise<StreamableFile> {
    expectWhole(person);
    if (!isUuid(id)) throw notFound('line', id);
    return new StreamableFile(await this.fileOf(id, person, asked), {
      type: 'application/zip',
      disposition: 'attachment; filename="line.zip"',
    });
  }

  private fileOf(
    id: string,
    person: SignedInPerson,
    asked: Readonly<Record<string, string | undefined>>,
  ): Promise<Readable> {
    const { photos, plans, prices, parts, ancestors } = asked;
    const partner = asked['for'];
    if (partner !== undefined) {
      if (!isUuid(partner)) throw notFound('partner', partner);
      return this.given.forPartner(id, partner, person);
    }
    if (parts === undefined)
      return this.sharing.lineFile(id, person, {
        ...{ photos: photos === 'yes', carePlans: plans === 'yes', prices: prices === 'yes' },
      });
    const wanted = new Set(parts.split(','));
    return this.given.forAnyone(
      id,
      {
        parts: new Set(grantParts.filter((part) => wanted.has(part))),
        ancestorsNamed: ancestors === 'named',
      },
      person,
    );
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
