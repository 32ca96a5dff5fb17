import type { EntityManager, SelectQueryBuilder } from 'typeorm';
import { likePattern } from '../database/like-pattern.js';
import { type KeysetOrder, type KeysetPage, keysetPage } from '../graphql/keyset.js';
import type { Disposition, FishPlace, Sex } from '../graphql/enums.js';
import { FishRow } from './rows/fish.entity.js';
import { inUseSql, placeHereSql, placePartnerSql } from './fish-place.js';
import { latestFirst } from './score-rows.js';
import { standingSql } from './standing.js';
import { IN_VESSELS } from './vessel-rows.js';

/** Which fish are listed; what is absent does not filter. */
export interface FishWanted {
  readonly ids?: readonly string[] | null;
  /** Part of the tag, name or note. */
  readonly text?: string | null;
  readonly lineIds?: readonly string[] | null;
  readonly sexes?: readonly Sex[] | null;
  readonly dispositions?: readonly Disposition[] | null;
  readonly inUse?: boolean | null;
  readonly place?: FishPlace | null;
  readonly spawnId?: string | null;
  readonly sireId?: string | null;
  readonly damId?: string | null;
  readonly hatchedFrom?: string | null;
  readonly hatchedTo?: string | null;
  /** Seen with this look, at any time. */
  readonly look?: { readonly locusId: string; readonly look: string } | null;
  /** With one of these in the genotype on record. */
  readonly allele?: { readonly locusId: string; readonly writtenAs: readonly string[] } | null;
  /** By the latest score of a trait. */
  readonly score?: {
    readonly traitId: string;
    readonly least?: number | null;
    readonly most?: number | null;
  } | null;
  readonly hasPhoto?: boolean | null;
  /** In one of these now. */
  readonly vesselIds?: readonly string[] | null;
  readonly includeWithdrawn?: boolean;
}

export interface FishOrder {
  readonly field: 'TAG' | 'HATCH_DATE' | 'CREATED_AT' | 'LINE' | 'DISPOSITION';
  readonly direction: 'ASC' | 'DESC';
}

const orders: Record<FishOrder['field'], { key: string; type: string }> = {
  TAG: { key: 'f.tag', type: 'text' },
  HATCH_DATE: {
    // As in the index `fish_oldest_first`, days since the first of all.
    key: `lpad((coalesce(f.hatch_date, DATE '0001-01-01') - DATE '0001-01-01')::text, 7, '0') || ' ' || f.tag`,
    type: 'text',
  },
  CREATED_AT: { key: 'f.created_at', type: 'timestamptz' },
  LINE: { key: `coalesce(l.code, '') || ' ' || f.tag`, type: 'text' },
  DISPOSITION: { key: `f.disposition || ' ' || f.tag`, type: 'text' },
};

const places: Record<FishPlace, string> = {
  here: placeHereSql('f'),
  partner: placePartnerSql('f'),
  unknown: 'f.swims_with_id IS NULL',
};

/** Newest first, and the fish of one day in the order of their tags: as in the index `fish_newest_first`. */
const newestFirst: KeysetOrder = {
  key: `lpad((DATE '9999-12-31' - coalesce(f.hatch_date, DATE '0001-01-01'))::text, 7, '0') || ' ' || f.tag`,
  type: 'text',
  direction: 'ASC',
};

const LATEST_SCORE = `(SELECT e.value FROM score_in_force e WHERE e.fish_id = f.id AND e.trait_id = :traitId
  ORDER BY ${latestFirst('e')} LIMIT 1)`;

/** What was seen, scored and photographed of it. */
const narrowByEvidence = (
  query: SelectQueryBuilder<FishRow>,
  { look, allele, score, hasPhoto }: FishWanted,
): void => {
  if (look)
    query.andWhere(
      'EXISTS (SELECT 1 FROM standing_phenotype o WHERE o.fish_id = f.id AND o.locus_id = :lookLocus AND o.phenotype = :look)',
      { lookLocus: look.locusId, look: look.look },
    );
  if (allele)
    query.andWhere(
      `EXISTS (SELECT 1 FROM standing_genotype g WHERE g.fish_id = f.id AND g.locus_id = :alleleLocus
        AND string_to_array(g.genotype, '/') && :writtenAs)`,
      { alleleLocus: allele.locusId, writtenAs: allele.writtenAs },
    );
  if (score)
    query.andWhere(
      `${LATEST_SCORE} BETWEEN coalesce(CAST(:least AS float8), '-Infinity') AND coalesce(CAST(:most AS float8), 'Infinity')`,
      { traitId: score.traitId, least: score.least ?? null, most: score.most ?? null },
    );
  if (typeof hasPhoto === 'boolean')
    query.andWhere(
      `${hasPhoto ? '' : 'NOT '}EXISTS (SELECT 1 FROM standing_photo i WHERE i.fish_id = f.id)`,
    );
};

/** The filtered, sorted fish, a page at a time. */
export const listFish = (
  manager: EntityManager,
  filter: FishWanted,
  sort: FishOrder,
  first: number,
  after: string | undefined,
): Promise<KeysetPage<FishRow>> => {
  const query = manager.createQueryBuilder(FishRow, 'f').leftJoin('line', 'l', 'l.id = f.line_id');
  const text = filter.text?.trim();
  if (text !== undefined && text !== '') {
    query.andWhere('(f.tag ILIKE :sought OR f.name ILIKE :sought OR f.note ILIKE :sought)', {
      // Not `text`: the query builder would take the cast `::text` of an order for it.
      sought: likePattern(text),
    });
  }
  if (filter.ids) query.andWhere('f.id = ANY(:ids)', { ids: filter.ids });
  if (filter.lineIds?.length)
    query.andWhere('f.line_id = ANY(:lineIds)', { lineIds: filter.lineIds });
  if (filter.sexes?.length) query.andWhere('f.sex = ANY(:sexes)', { sexes: filter.sexes });
  if (filter.dispositions?.length) {
    query.andWhere('f.disposition = ANY(:dispositions)', { dispositions: filter.dispositions });
  }
  if (typeof filter.inUse === 'boolean') {
    query.andWhere(`${filter.inUse ? '' : 'NOT '}${inUseSql('f')}`);
  }
  if (filter.place) query.andWhere(places[filter.place]);
  if (filter.spawnId) query.andWhere('f.spawn_id = :spawnId', { spawnId: filter.spawnId });
  if (filter.sireId || filter.damId) query.innerJoin('spawn', 's', 's.id = f.spawn_id');
  if (filter.sireId) query.andWhere('s.sire_id = :sireId', { sireId: filter.sireId });
  if (filter.damId) query.andWhere('s.dam_id = :damId', { damId: filter.damId });
  if (filter.hatchedFrom) query.andWhere('f.hatch_date >= :from', { from: filter.hatchedFrom });
  if (filter.hatchedTo) query.andWhere('f.hatch_date <= :to', { to: filter.hatchedTo });
  narrowByEvidence(query, filter);
  if (filter.vesselIds?.length) query.andWhere(IN_VESSELS, { vesselIds: filter.vesselIds });
  if (filter.includeWithdrawn !== true) query.andWhere(standingSql('f'));
  const order: KeysetOrder =
    sort.field === 'HATCH_DATE' && sort.direction === 'DESC'
      ? newestFirst
      : { ...orders[sort.field], direction: sort.direction };
  return keysetPage(query, 'f', order, first, after);
};
