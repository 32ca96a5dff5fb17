import {
  Body,
  Controller,
  Get,
  Header,
  HttpCode,
  Post,
  Query,
  Req,
  StreamableFile,
  UseGuards,
} from '@nestjs/common';
import type { Request } from 'express';
import { CurrentPerson, SessionGuard } from '../accounts/session.guard.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { besideTheLoop } from '../jobs/beside.js';
import { PrintAddressService } from './print-address.service.js';
import { PrintContentService } from './print-content.service.js';
import { idsOf, plainQuery, sheetOf, skipOf } from './print-request.js';
import { cardsProgram, jarLabelsProgram } from './print-programs.js';

const pdf = (bytes: Uint8Array, name: string): StreamableFile =>
  new StreamableFile(bytes, {
    type: 'application/pdf',
    disposition: `attachment; filename="${name}.pdf"`,
  });

@Controller('export/print')
@UseGuards(SessionGuard)
export class PrintController {
  constructor(
    private readonly content: PrintContentService,
    private readonly addresses: PrintAddressService,
  ) {}

  @Get('jar-labels.pdf')
  @Header('cache-control', 'no-store')
  async jarLabels(
    @Query() asked: Record<string, unknown>,
    @Req() req: Request,
  ): Promise<StreamableFile> {
    const query = plainQuery(asked);
    const [spawnId] = idsOf(query['spawn'], 'spawn');
    const [lineId] = idsOf(query['line'], 'line');
    const labels = await this.content.jarLabels({
      fishIds: idsOf(query['fish'], 'fish'),
      ...(spawnId !== undefined && { spawnId }),
      ...(lineId !== undefined && { lineId }),
    });
    const { address } = this.addresses.of(req, query['address']);
    return pdf(
      await besideTheLoop(
        jarLabelsProgram,
        labels,
        sheetOf(query, 'A4-3x8'),
        skipOf(query),
        address,
      ),
      'jar-labels',
    );
  }

  /** The same with the parameters in a JSON body: an address has no room for the ids of a whole brood. */
  @Post('jar-labels.pdf')
  @HttpCode(200)
  @Header('cache-control', 'no-store')
  manyJarLabels(
    @Body() asked: Record<string, unknown>,
    @Req() req: Request,
  ): Promise<StreamableFile> {
    return this.jarLabels(asked ?? {}, req);
  }

  @Get('vessel-labels.pdf')
  @Header('cache-control', 'no-store')
  async vesselLabels(
    @CurrentPerson() person: SignedInPerson,
    @Query() asked: Record<string, unknown>,
    @Req() req: Request,
  ): Promise<StreamableFile> {
    const query = plainQuery(asked);
    const labels = await this.content.vesselLabels(person.id, idsOf(query['vessel'], 'vessel'));
    const sheet = sheetOf(query, 'A4-3x8');
    const { address } = this.addresses.of(req, query['address']);
    return pdf(
      await besideTheLoop(jarLabelsProgram, labels, sheet, skipOf(query), address),
      'vessel-labels',
    );
  }

  /** The same with the parameters in a JSON body: an address has no room for the ids of a whole room. */
  @Post('vessel-labels.pdf')
  @HttpCode(200)
  @Header('cache-control', 'no-store')
  manyVesselLabels(
    @CurrentPerson() person: SignedInPerson,
    @Body() asked: Record<string, unknown>,
    @Req() req: Request,
  ): Promise<StreamableFile> {
    return this.vesselLabels(person, asked ?? {}, req);
  }

  @Get('spawn-cards.pdf')
  @Header('cache-control', 'no-store')
  async spawnCards(
    @Query() asked: Record<string, unknown>,
    @Req() req: Request,
  ): Promise<StreamableFile> {
    const query = plainQuery(asked);
    const list = await this.content.spawnCards(idsOf(query['spawn'], 'spawn'));
    const { address } = this.addresses.of(req, query['address']);
    return pdf(
      await besideTheLoop(
        cardsProgram,
        'Spawn cards',
        list,
        sheetOf(query, 'A4-2x2'),
        skipOf(query),
        address,
      ),
      'spawn-cards',
    );
  }

  @Get('line-cards.pdf')
  @Header('cache-control', 'no-store')
  async lineCards(
    @Query() asked: Record<string, unknown>,
    @Req() req: Request,
  ): Promise<StreamableFile> {
    const query = plainQuery(asked);
    const list = await this.content.lineCards(idsOf(query['line'], 'line'));
    const { address } = this.addresses.of(req, query['address']);
    return pdf(
      await besideTheLoop(
        cardsProgram,
        'Line cards',
        list,
        sheetOf(query, 'A4-2x2'),
        skipOf(query),
        address,
      ),
      'line-cards',
    );
  }
}
