import type { EntityManager } from 'typeorm';
import { likePattern } from '../database/like-pattern.js';
import { type KeysetPage, keysetPage } from '../graphql/keyset.js';
import { SpawnRow } from './rows/spawn.entity.js';
import { standingSql } from './standing.js';

/** Which spawns are listed; what is absent does not filter. */
export interface SpawnsWanted {
  /** Part of the tag, the purpose or the note. */
  readonly text?: string | null;
  readonly lineIds?: readonly string[] | null;
  readonly sireId?: string | null;
  readonly damId?: string | null;
  readonly failed?: boolean | null;
  readonly includeWithdrawn?: boolean;
}

export interface SpawnOrder {
  readonly field: 'TAG' | 'SPAWNED_ON';
  readonly direction: 'ASC' | 'DESC';
}

/** The filtered, sorted spawns, a page at a time. */
export const listSpawns = (
  manager: EntityManager,
  filter: SpawnsWanted,
  sort: SpawnOrder,
  first: number,
  after: string | undefined,
): Promise<KeysetPage<SpawnRow>> => {
  const query = manager.createQueryBuilder(SpawnRow, 's');
  const text = filter.text?.trim();
  if (text) {
    query.andWhere('(s.tag ILIKE :sought OR s.purpose ILIKE :sought OR s.note ILIKE :sought)', {
      sought: likePattern(text),
    });
  }
  if (filter.lineIds?.length)
    query.andWhere('s.line_id = ANY(:lineIds)', { lineIds: filter.lineIds });
  if (filter.sireId) query.andWhere('s.sire_id = :sireId', { sireId: filter.sireId });
  if (filter.damId) query.andWhere('s.dam_id = :damId', { damId: filter.damId });
  if (typeof filter.failed === 'boolean')
    query.andWhere('s.failed = :failed', { failed: filter.failed });
  if (filter.includeWithdrawn !== true) query.andWhere(standingSql('s'));
  const order =
    sort.field === 'TAG'
      ? { key: 's.tag', type: 'text' }
      : { key: `coalesce(s.spawned_on, s.hatch_date, DATE '0001-01-01')`, type: 'date' };
  return keysetPage(query, 's', { ...order, direction: sort.direction }, first, after);
};
