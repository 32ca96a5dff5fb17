import type { EntityManager } from 'typeorm';
import { type KeysetPage, keysetPage } from '../graphql/keyset.js';
import { CommentRow } from './rows/comment.entity.js';
import { standingSql } from './standing.js';

/** Comments that stand of a fish or of a spawn, the oldest first. */
export const commentsOf = (
  manager: EntityManager,
  subject: { readonly fishId: string } | { readonly spawnId: string },
  first: number,
  after: string | undefined,
): Promise<KeysetPage<CommentRow>> =>
  keysetPage(
    manager.createQueryBuilder(CommentRow, 'c').where(subject).andWhere(standingSql('c')),
    'c',
    { key: 'c.created_at', direction: 'ASC', type: 'timestamptz' },
    first,
    after,
  );
