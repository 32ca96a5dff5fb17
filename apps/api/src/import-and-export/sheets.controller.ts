import { Controller, HttpCode, Post, Req, UseGuards } from '@nestjs/common';
import type { Request } from 'express';
import { expectSameOrigin } from '../accounts/same-origin.js';
import { CurrentPerson, SessionGuard } from '../accounts/session.guard.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { RequestError } from '../errors/request-error.js';
import { besideTheLoop } from '../jobs/beside.js';
import type { SheetText } from './read-sheets.js';
import { sheetsProgram } from './sheets-program.js';

/** Bytes of a workbook, packed as it is. */
const LARGEST_WORKBOOK = 20 * 1024 * 1024;

const wholeBody = async (body: Request): Promise<Uint8Array> => {
  const pieces: Buffer[] = [];
  let bytes = 0;
  for await (const piece of body as AsyncIterable<Buffer>) {
    bytes += piece.length;
    if (bytes > LARGEST_WORKBOOK)
      throw new RequestError(
        'IMPORT_UNREADABLE',
        `This workbook is larger than ${LARGEST_WORKBOOK / 1024 / 1024} MB: save the sheet as CSV (UTF-8) and choose that file.`,
      );
    pieces.push(piece);
  }
  // Memory of its own: a pool of buffers cannot go to a thread.
  return new Uint8Array(Buffer.concat(pieces));
};

/** What a thread that was stopped says is for requests of any kind. */
const tellOfSize = (error: unknown): never => {
  if (!(error instanceof RequestError) || error.code !== 'WORK_TOO_LONG') throw error;
  throw new RequestError(
    'WORK_TOO_LONG',
    'Reading this workbook took too much memory or time and was stopped. Save the sheet with the fish as CSV (UTF-8) and choose that file.',
  );
};

@Controller()
@UseGuards(SessionGuard)
export class SheetsController {
  /** The sheets of a workbook, each as the text of a CSV file; nothing is kept. The bytes are the body. */
  @Post('workbook-sheets')
  @HttpCode(200)
  async read(
    @CurrentPerson() { role }: SignedInPerson,
    @Req() req: Request,
  ): Promise<{ sheets: readonly SheetText[] }> {
    if (role === 'partner')
      throw new RequestError('NOT_ALLOWED', 'Files are imported by whoever keeps records here.');
    expectSameOrigin(req);
    const bytes = await wholeBody(req);
    return { sheets: await besideTheLoop(sheetsProgram, bytes).catch(tellOfSize) };
  }
}
