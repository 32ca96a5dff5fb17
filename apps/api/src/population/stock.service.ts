import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { namedFish } from '../kinship/named-fish.js';
import { notFound } from '../errors/request-error.js';
import { inUseSql } from '../stock/fish-place.js';
import type { NamedFishModel } from '../shapes/named-fish.model.js';

const NAMED = `
  SELECT f.id, f.tag, f.sex, f.disposition, f.hatch_date::text AS "hatchDate", l.code AS "lineCode",
    ${inUseSql('f')} AS "inUse"
  FROM fish f LEFT JOIN line l ON l.id = f.line_id`;

/** $1: the undecided too. */
const IN_USE = `(${inUseSql('f')} OR ($1 AND f.disposition = 'unsorted'))`;

/** Full sibs have it alike: young of one pair, and young of one spawn whose parents are not all known. */
const BROOD = `coalesce(s.sire_id::text || s.dam_id::text, CASE WHEN s.mixed_origin IS NOT TRUE THEN s.id::text END, f.id::text)`;

/** A fish in use, and how many full sibs of its sex it stands for, itself included. */
export type SibInUse = NamedFishModel & { readonly standsFor: number };

/** Reads the fish that figures about a stock are about, each list in one query. */
@Injectable()
export class StockService {
  constructor(private readonly dataSource: DataSource) {}

  ofLine(lineId: string): Promise<NamedFishModel[]> {
    return this.dataSource.query(
      `${NAMED} WHERE f.withdrawn_at IS NULL AND f.line_id = $1 ORDER BY f.tag, f.id`,
      [lineId],
    );
  }

  /** Fish in use, of all lines or of some; one more than `most` shows that there are too many. */
  inUse(
    lineIds: readonly string[] | null,
    includeUnsorted: boolean,
    most: number,
  ): Promise<NamedFishModel[]> {
    return this.dataSource.query(
      `${NAMED} WHERE f.withdrawn_at IS NULL AND ${IN_USE}
         AND ($2::uuid[] IS NULL OR f.line_id = ANY($2::uuid[])) ORDER BY f.tag, f.id LIMIT $3`,
      [includeUnsorted, lineIds, most + 1],
    );
  }

  /**
   * Of the fish in use one of each sex of every pair's young, the first by tag, with how many it stands for; fish without a
   * spawn, and those of a mixed one with a parent unknown, stand for themselves.
   */
  oneOfEachSib(
    lineIds: readonly string[] | null,
    includeUnsorted: boolean,
    most: number,
  ): Promise<SibInUse[]> {
    return this.dataSource.query(
      `SELECT id, tag, sex, disposition, "hatchDate", "lineCode", "standsFor" FROM (
         SELECT f.id, f.tag, f.sex, f.disposition, f.hatch_date::text AS "hatchDate", l.code AS "lineCode",
           row_number() OVER sibs AS place,
           (count(*) OVER (PARTITION BY ${BROOD}, f.sex))::int AS "standsFor"
         FROM fish f LEFT JOIN line l ON l.id = f.line_id LEFT JOIN spawn s ON s.id = f.spawn_id
         WHERE f.withdrawn_at IS NULL AND ${IN_USE}
           AND ($2::uuid[] IS NULL OR f.line_id = ANY($2::uuid[]))
         WINDOW sibs AS (PARTITION BY ${BROOD}, f.sex ORDER BY f.tag, f.id)
       ) AS ranked WHERE place = 1 ORDER BY tag, id LIMIT $3`,
      [includeUnsorted, lineIds, most + 1],
    );
  }

  async countInUse(lineIds: readonly string[] | null, includeUnsorted: boolean): Promise<number> {
    const [row] = (await this.dataSource.query(
      `SELECT count(*)::int AS count FROM fish f WHERE f.withdrawn_at IS NULL AND ${IN_USE}
         AND ($2::uuid[] IS NULL OR f.line_id = ANY($2::uuid[]))`,
      [includeUnsorted, lineIds],
    )) as { count: number }[];
    return row?.count ?? 0;
  }

  /** By id, withdrawn ones too: an ancestor stays an ancestor. */
  async named(ids: readonly string[]): Promise<Map<string, NamedFishModel>> {
    return ids.length === 0 ? new Map() : namedFish(this.dataSource, ids);
  }

  /** Those of the ids that whoever asks may see. */
  async seen(ids: readonly string[]): Promise<Map<string, NamedFishModel>> {
    return ids.length === 0 ? new Map() : namedFish(this.dataSource, ids, 'absent');
  }

  /** @throws RequestError `NOT_FOUND` for the first that is not recorded. */
  async expectLines(ids: readonly string[]): Promise<void> {
    if (ids.length === 0) return;
    const rows = (await this.dataSource.query('SELECT id FROM line WHERE id = ANY($1::uuid[])', [
      ids,
    ])) as { id: string }[];
    const known = new Set(rows.map((row) => row.id));
    const missing = ids.find((id) => !known.has(id.toLowerCase()));
    if (missing !== undefined) throw notFound('line', missing);
  }
}

/** The largest first; of equals, which the pedigree holds in the order of their random ids, by tag. */
export const largestFirst = <Row>(
  rows: readonly Row[],
  amount: (row: Row) => number,
  fish: (row: Row) => NamedFishModel,
): Row[] =>
  rows.toSorted((a, b) => amount(b) - amount(a) || fish(a).tag.localeCompare(fish(b).tag, 'en'));
