import { Controller, Get, HttpCode, Param, Put, Query, Req, Res, UseGuards } from '@nestjs/common';
import type { Request, Response } from 'express';
import { pipeline } from 'node:stream/promises';
import { CurrentPerson, SessionGuard } from '../accounts/session.guard.js';
import { fieldError, notFound } from '../errors/request-error.js';
import { isUuid } from '../limits/is-uuid.js';
import { isCalendarDate } from '@linewright/pedigree';
import type { SignedInPerson } from '../graphql/request-context.js';
import type { PhotoSize } from '../photo-files/photo-files.js';
import { LARGEST_PHOTO } from '../photo-files/photo-image.js';
import { PhotoSubject, isPhotoSubject } from './photo-subject.js';
import { toPhoto } from './photo.mapper.js';
import { type NewPhoto, PhotosService } from './photos.service.js';
import { readBody } from './read-body.js';
import { expectSameOrigin } from '../accounts/same-origin.js';

const expectUuid = (field: string, text: string | undefined): string => {
  if (text !== undefined && isUuid(text)) return text.toLowerCase();
  throw fieldError({ field, message: `"${text ?? ''}" is not an id: give a UUID.` });
};

const readQuery = (id: string, query: Record<string, string | undefined>): NewPhoto => {
  const { kind = '', of, taken, caption } = query;
  if (!isPhotoSubject(kind)) {
    const known = Object.values(PhotoSubject).join(', ');
    throw fieldError({
      field: 'kind',
      message: `"${kind}" has no pictures: give one of ${known}.`,
    });
  }
  if (taken !== undefined && taken !== '' && !isCalendarDate(taken)) {
    throw fieldError({
      field: 'taken',
      message: `"${taken}" is not a date: give a calendar day as YYYY-MM-DD.`,
    });
  }
  return {
    id: expectUuid('id', id),
    subjectKind: kind,
    subjectId: expectUuid('of', of),
    takenOn: taken === undefined || taken === '' ? null : taken,
    caption: caption ?? null,
  };
};

@Controller('photos')
@UseGuards(SessionGuard)
export class PhotosController {
  constructor(private readonly photos: PhotosService) {}

  /**
   * The picture's bytes as the body, what it shows in the address:
   * `PUT /photos/UUID?kind=fish&of=UUID&taken=2026-03-14&caption=…`. Sending it again changes nothing.
   */
  @Put(':id')
  @HttpCode(200)
  async add(
    @CurrentPerson() person: SignedInPerson,
    @Req() req: Request,
    @Param('id') id: string,
    @Query() query: Record<string, string | undefined>,
  ): Promise<object> {
    expectSameOrigin(req);
    const photo = readQuery(id, query);
    const bytes = await readBody(req, LARGEST_PHOTO);
    return toPhoto(await this.photos.add(photo, bytes, person.name));
  }

  @Get(':id')
  full(@Req() req: Request, @Res() res: Response, @Param('id') id: string): Promise<void> {
    return this.send(req, res, id, 'full');
  }

  @Get(':id/small')
  small(@Req() req: Request, @Res() res: Response, @Param('id') id: string): Promise<void> {
    return this.send(req, res, id, 'small');
  }

  @Get(':id/tiny')
  tiny(@Req() req: Request, @Res() res: Response, @Param('id') id: string): Promise<void> {
    return this.send(req, res, id, 'tiny');
  }

  private async send(req: Request, res: Response, id: string, size: PhotoSize): Promise<void> {
    if (!isUuid(id)) throw notFound('photo', id);
    const photo = await this.photos.open(id, size);
    const etag = `"${photo.sha256}-${size}"`;
    res.setHeader('ETag', etag);
    // The picture of an id never changes; the cookie decides who may see it, so no shared cache keeps it.
    res.setHeader('Cache-Control', 'private, max-age=31536000, immutable');
    res.setHeader('Vary', 'Cookie');
    if (req.headers['if-none-match'] === etag) {
      res.status(304).end();
      return;
    }
    res.setHeader('Content-Type', photo.mediaType);
    res.setHeader('Content-Length', photo.bytes);
    await pipeline(photo.stream(), res);
  }
}
