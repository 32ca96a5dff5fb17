import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import type { Readable } from 'node:stream';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { expectDayHappened } from '../clock/expect-happened.js';
import { oneAtATime } from '../database/one-at-a-time.js';
import { given, trimmed } from '../database/given.js';
import { RecordStore } from '../stock/record-store.js';
import { fieldError, notFound } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import type { WithdrawInput } from '../graphql/withdraw.input.js';
import { PhotoFiles, type PhotoSize } from '../photo-files/photo-files.js';
import { preparePhoto, tinyOf } from '../photo-files/photo-image.js';
import { type PhotoSubject, pageOf } from './photo-subject.js';
import { photoRecord } from '../stock/record-types.js';
import type { PhotoRow } from '../stock/rows/photo.entity.js';
import type { CaptionPhotoInput } from './photo.inputs.js';

const LONGEST_CAPTION = 500;

export interface NewPhoto {
  readonly id: string;
  readonly subjectKind: PhotoSubject;
  readonly subjectId: string;
  readonly takenOn: string | null;
  readonly caption: string | null;
}

export interface KeptPhoto {
  readonly mediaType: string;
  readonly bytes: number;
  readonly sha256: string;
  stream(): Readable;
}

const checkedCaption = (caption: string | null): string | null => {
  const text = trimmed(caption) ?? null;
  if (text === null || text.length <= LONGEST_CAPTION) return text;
  throw fieldError({
    field: 'caption',
    message: `The caption is longer than ${LONGEST_CAPTION} characters: shorten it.`,
  });
};

@Injectable()
export class PhotosService {
  private before: Promise<unknown> = Promise.resolve();

  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly files: PhotoFiles,
    private readonly clock: Clock,
  ) {}

  /** The file first, then its record: whatever stops it in between, no record lacks its file. */
  async add(photo: NewPhoto, bytes: Buffer, by: string): Promise<PhotoRow> {
    const caption = checkedCaption(photo.caption);
    const { manager } = this.dataSource;
    const known = await this.records.known(manager, photoRecord, photo.id);
    if (known !== null) return known;
    const { subjectKind, subjectId, takenOn } = photo;
    if (takenOn !== null) expectDayHappened(this.clock, 'taken', takenOn);
    await pageOf(this.records, manager, subjectKind, subjectId);
    const prepared = await this.inTurn(() => preparePhoto(bytes));
    await this.files.keep(prepared);
    const { sha256, mediaType, width, height, file } = prepared;
    return this.dataSource.transaction(async (m) => {
      // The same picture sent twice at the same moment: the second waits and finds the first.
      await oneAtATime(m, photo.id);
      const page = await pageOf(this.records, m, subjectKind, subjectId);
      const row = { ...photo, ...page, caption, sha256, mediaType, width, height };
      return this.records.create<PhotoRow>(m, photoRecord, { ...row, bytes: file.length }, by);
    });
  }

  /** A picture in force, for serving; a withdrawn one is not served. */
  async open(id: string, size: PhotoSize): Promise<KeptPhoto> {
    const row = await this.records.standing(this.dataSource.manager, photoRecord, id);
    if (row === null) throw notFound('photo', id);
    const path = this.files.pathOf(row.sha256, size);
    if (size === 'tiny') await this.madeTiny(row.sha256, path);
    const found = await stat(path).catch(() => null);
    if (found === null) throw notFound('file of the photo', id);
    return {
      mediaType: size === 'full' ? row.mediaType : 'image/webp',
      bytes: found.size,
      sha256: row.sha256,
      stream: () => createReadStream(path),
    };
  }

  /** Made at the first asking and kept, so that pictures from before it was thought of have one too. */
  private async madeTiny(sha256: string, path: string): Promise<void> {
    if ((await stat(path).catch(() => null)) !== null) return;
    const small = this.files.pathOf(sha256, 'small');
    if ((await stat(small).catch(() => null)) === null) return;
    await this.inTurn(async () => this.files.keepTiny(sha256, await tinyOf(small)));
  }

  async caption(input: CaptionPhotoInput, person: SignedInPerson): Promise<PhotoRow> {
    if (typeof input.takenOn === 'string') expectDayHappened(this.clock, 'takenOn', input.takenOn);
    const changes = given<Partial<PhotoRow>>({
      ...(input.caption !== undefined && { caption: checkedCaption(input.caption) }),
      ...(input.takenOn !== undefined && { takenOn: input.takenOn }),
    });
    return this.dataSource.transaction((m) =>
      this.records.correct<PhotoRow>(
        m,
        photoRecord,
        input.id,
        input.revision,
        changes,
        person.name,
      ),
    );
  }

  withdraw(input: WithdrawInput, person: SignedInPerson): Promise<PhotoRow> {
    const { id, reason, revision } = input;
    return this.dataSource.transaction((m) =>
      this.records.withdraw<PhotoRow>(m, photoRecord, id, reason, person.name, revision),
    );
  }

  /** Decoding takes memory by the pixel, so one picture is decoded at a time. */
  private inTurn<T>(work: () => Promise<T>): Promise<T> {
    const turn = this.before.then(work);
    this.before = turn.catch(() => undefined);
    return turn;
  }
}
