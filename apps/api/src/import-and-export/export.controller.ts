import { Readable } from 'node:stream';
import { Controller, Get, Query, StreamableFile, UseGuards } from '@nestjs/common';
import { CurrentPerson, SessionGuard } from '../accounts/session.guard.js';
import { notFound } from '../errors/request-error.js';
import { isUuid } from '../limits/is-uuid.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { ExportService } from './export.service.js';

@Controller('export')
@UseGuards(SessionGuard)
export class ExportController {
  constructor(private readonly exports: ExportService) {}

  @Get('pedigree.csv')
  async pedigree(
    @CurrentPerson() person: SignedInPerson,
    @Query('line') line?: string,
  ): Promise<StreamableFile> {
    if (line !== undefined && !isUuid(line)) throw notFound('line', line);
    const pieces = await this.exports.pedigree(person, line);
    return new StreamableFile(Readable.from(pieces, { objectMode: false }), {
      type: 'text/csv; charset=utf-8',
      disposition: 'attachment; filename="pedigree.csv"',
    });
  }
}
