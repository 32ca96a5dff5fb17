import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { fieldError, notFound } from '../errors/request-error.js';
import type { KeysetPage } from '../graphql/keyset.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import type { WithdrawInput } from '../graphql/withdraw.input.js';
import { commentsOf } from '../stock/comment-rows.js';
import { RecordStore } from '../stock/record-store.js';
import { commentRecord, fishRecord, spawnRecord } from '../stock/record-types.js';
import type { CommentRow } from '../stock/rows/comment.entity.js';
import type { AddCommentInput, CorrectCommentInput } from './comment.model.js';

interface Subject {
  readonly fishId?: string | null;
  readonly spawnId?: string | null;
}

/** Comments of whoever may look; each is its author's alone to change. */
@Injectable()
export class CommentsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
  ) {}

  /** @throws RequestError `NOT_FOUND` for a fish or a spawn that the asker does not see. */
  async page(
    subject: Subject,
    first: number,
    after: string | undefined,
  ): Promise<KeysetPage<CommentRow>> {
    const { manager } = this.dataSource;
    return commentsOf(manager, await this.seen(manager, subject), first, after);
  }

  add(input: AddCommentInput, by: SignedInPerson): Promise<CommentRow> {
    const words = expectWords(input.words);
    return this.dataSource.transaction(async (m) => {
      const subject = await this.seen(m, input);
      const row = { id: input.id ?? randomUUID(), personId: by.id, ...subject, words };
      return this.records.create<CommentRow>(m, commentRecord, row, by.name);
    });
  }

  correct({ id, revision, words }: CorrectCommentInput, by: SignedInPerson): Promise<CommentRow> {
    const changes = { words: expectWords(words) };
    return this.dataSource.transaction(async (m) => {
      await this.expectOwn(m, id, by);
      return this.records.correct<CommentRow>(m, commentRecord, id, revision, changes, by.name);
    });
  }

  withdraw({ id, reason, revision }: WithdrawInput, by: SignedInPerson): Promise<CommentRow> {
    return this.dataSource.transaction(async (m) => {
      await this.expectOwn(m, id, by);
      return this.records.withdraw<CommentRow>(m, commentRecord, id, reason, by.name, revision);
    });
  }

  /** Another's is told as one that is not there. */
  private async expectOwn(m: EntityManager, id: string, by: SignedInPerson): Promise<void> {
    const row = await this.records.find(m, commentRecord, id);
    if (row.personId !== by.id) throw notFound(commentRecord.word, id);
  }

  private async seen(
    m: EntityManager,
    { fishId, spawnId }: Subject,
  ): Promise<{ fishId: string } | { spawnId: string }> {
    if ((fishId == null) === (spawnId == null))
      throw fieldError({ field: 'fishId', message: 'Name a fish or a spawn, one of the two.' });
    if (fishId != null) return { fishId: (await this.records.find(m, fishRecord, fishId)).id };
    return { spawnId: (await this.records.find(m, spawnRecord, spawnId!)).id };
  }
}

const expectWords = (words: string): string => {
  if (words.trim() !== '') return words.trim();
  throw fieldError({ field: 'words', message: 'Write something first.' });
};
