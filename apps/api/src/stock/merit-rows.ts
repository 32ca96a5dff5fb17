import { aliveHereSql, inUseSql, placeHereSql } from './fish-place.js';
import type { TraitKind } from '../graphql/enums.js';
import type { Records } from './reads.js';
import { type RecordMark, stateOf } from './records-state.js';
import { standingSql } from './standing.js';

const MARKS: readonly RecordMark[] = [
  ...(['score', 'trait_definition', 'trait_model', 'scoring_draw', 'fish', 'spawn'] as const),
  ...(['spawn_event', 'spawn_count', 'spawn_loss'] as const),
];

/** Names the state of all records that breeding values rest on. */
export const meritState = (records: Records): Promise<string> => stateOf(records, MARKS);

/** The same of all but the scores, and of the codes of lines. */
export const stateBesideScores = (records: Records): Promise<string> =>
  stateOf(records, [...MARKS.filter((mark) => mark !== 'score'), 'line_named']);

/** One look at a fish for a trait, in force. */
export interface LookRow {
  readonly id: string;
  readonly fishId: string;
  readonly value: number;
  readonly scoredOn: string;
  /** By the day of hatching as it is on record now; null when that is not known. */
  readonly ageDays: number | null;
  readonly scorer: string;
  readonly version: number;
  readonly swimsWithId: string | null;
  /** When it was recorded, in seconds. */
  readonly recordedAt: number;
}

const looksSql = (where: string): string =>
  `SELECT s.id, s.fish_id AS "fishId", s.value, s.scored_on::text AS "scoredOn", s.scorer,
     coalesce(s.scored_on - coalesce(f.hatch_date, p.hatch_date), s.age_days) AS "ageDays",
     s.trait_version AS version, f.swims_with_id AS "swimsWithId", extract(epoch FROM s.created_at)::float8 AS "recordedAt"
   FROM score_in_force s JOIN standing_fish f ON f.id = s.fish_id LEFT JOIN spawn p ON p.id = f.spawn_id
   WHERE s.trait_id = $1 ${where} ORDER BY s.fish_id, s.scored_on, s.created_at, s.id`;

/** Looks in force at fish that stand, by fish and day. */
export const looksForTrait = (records: Records, traitId: string): Promise<LookRow[]> =>
  records.query(looksSql(''), [traitId]);

/** Those of them that were recorded no more than a second before `seconds`, or later. Cost: these looks. */
export const looksRecordedSince = (
  records: Records,
  traitId: string,
  seconds: number,
): Promise<LookRow[]> =>
  records.query(looksSql('AND s.created_at > to_timestamp($2::float8 - 1)'), [traitId, seconds]);

/** How many looks are in force, and the sum of the first 32 bits of their ids, which tells which ones they are. */
export const looksInForce = async (
  records: Records,
  traitId: string,
): Promise<{ readonly count: number; readonly sum: number }> => {
  const [row] = (await records.query(
    `SELECT count(*)::int AS count, coalesce(sum(('x' || left(s.id::text, 8))::bit(32)::bigint), 0)::float8 AS sum
     FROM score_in_force s JOIN standing_fish f ON f.id = s.fish_id WHERE s.trait_id = $1`,
    [traitId],
  )) as { count: number; sum: number }[];
  return row!;
};

/** The same sum of looks that were read. */
export const sumOfLooks = (looks: readonly LookRow[]): number =>
  looks.reduce((sum, { id }) => sum + parseInt(id.slice(0, 8), 16), 0);

/** A trait that scores of another are corrected for. */
export interface BesideTraitRow {
  readonly id: string;
  readonly name: string;
  readonly kind: TraitKind;
  readonly version: number;
}

/** Of these traits those that stand, in the order they are named. */
export const besideTraits = (records: Records, ids: readonly string[]): Promise<BesideTraitRow[]> =>
  records.query(
    `SELECT id, name, kind, version FROM standing_trait_definition WHERE id = ANY($1) ORDER BY array_position($1, id)`,
    [ids],
  );

/** Traits of which any score is in force, by name. */
export const scoredTraits = (records: Records): Promise<{ id: string }[]> =>
  records.query(
    `SELECT t.id FROM standing_trait_definition t WHERE EXISTS (SELECT 1 FROM score_in_force s WHERE s.trait_id = t.id)
     ORDER BY t.name, t.id`,
  );

/** What of a fish sets it among others: withdrawn ones too, since an ancestor stays an ancestor. */
export interface FishFactRow {
  readonly id: string;
  readonly lineId: string | null;
  readonly spawnId: string | null;
  readonly sex: string;
  readonly hatchDate: string | null;
  readonly standing: boolean;
  readonly inUse: boolean;
  readonly aliveHere: boolean;
}

export const fishFacts = (records: Records): Promise<FishFactRow[]> =>
  records.query(
    `SELECT f.id, f.line_id AS "lineId", f.spawn_id AS "spawnId", f.sex,
       coalesce(f.hatch_date, p.hatch_date)::text AS "hatchDate",
       ${standingSql('f')} AS standing, ${inUseSql('f')} AS "inUse",
       ${standingSql('f')} AND ${aliveHereSql('f')} AS "aliveHere"
     FROM fish f LEFT JOIN spawn p ON p.id = f.spawn_id ORDER BY f.id`,
  );

/** Lines by id and code, withdrawn ones too. */
export const lineCodes = (records: Records): Promise<{ id: string; code: string }[]> =>
  records.query('SELECT id, code FROM line ORDER BY code, id');

/** Which line each spawn is of. */
export const spawnLines = (records: Records): Promise<{ id: string; lineId: string | null }[]> =>
  records.query('SELECT id, line_id AS "lineId" FROM spawn');

/** How a brood with scored fish was sorted. */
export interface SortedBroodRow {
  readonly spawnId: string;
  readonly tag: string;
  readonly lineId: string | null;
  /** First day on which any of it was decided about; null while none was. */
  readonly sortedOn: string | null;
  /** Young with a record of their own. */
  readonly recorded: number;
  /** Culled, with a record or without. */
  readonly culled: number;
  /** Of these, those whose reason names the trait. */
  readonly culledForTrait: number;
  /** Culled without a record of their own. */
  readonly culledUnrecorded: number;
  /** Fish that chance chose to be scored before sorting. */
  readonly drawn: readonly string[];
}

/** Broods of the fish scored for a trait. `words` are what a reason calls the trait, in small letters. */
export const sortedBroods = (
  records: Records,
  traitId: string,
  words: readonly string[],
): Promise<SortedBroodRow[]> =>
  records.query(
    `WITH brood AS (
       SELECT DISTINCT f.spawn_id AS id FROM score_in_force s JOIN standing_fish f ON f.id = s.fish_id
       WHERE s.trait_id = $1 AND f.spawn_id IS NOT NULL),
     cull AS (
       SELECT l.spawn_id, l.number, lower(l.reason) AS reason FROM standing_spawn_loss l
       WHERE l.kind = 'culled' AND l.spawn_id IN (SELECT id FROM brood)
       UNION ALL
       SELECT f.spawn_id, 1, lower(coalesce(f.disposition_reason, '')) FROM standing_fish f
       WHERE f.disposition = 'culled' AND f.spawn_id IN (SELECT id FROM brood))
     SELECT p.id AS "spawnId", p.tag, p.line_id AS "lineId",
       least(
         (SELECT min(e.at)::date FROM standing_spawn_event e WHERE e.spawn_id = p.id AND e.kind = 'sorted'),
         (SELECT min(c.counted_on) FROM standing_spawn_count c WHERE c.spawn_id = p.id AND c.stage = 'sorted'),
         (SELECT min(f.disposition_date) FROM standing_fish f
          WHERE f.spawn_id = p.id AND f.disposition IN ('keeper', 'hold', 'culled')))::text AS "sortedOn",
       (SELECT count(*)::int FROM standing_fish f WHERE f.spawn_id = p.id) AS recorded,
       coalesce((SELECT sum(number)::int FROM cull WHERE cull.spawn_id = p.id), 0) AS culled,
       coalesce((SELECT sum(l.number)::int FROM standing_spawn_loss l
         WHERE l.kind = 'culled' AND l.spawn_id = p.id), 0) AS "culledUnrecorded",
       coalesce((SELECT sum(number)::int FROM cull WHERE cull.spawn_id = p.id
         AND EXISTS (SELECT 1 FROM unnest($2::text[]) w WHERE position(w IN cull.reason) > 0)), 0) AS "culledForTrait",
       coalesce((SELECT array_agg(DISTINCT x::text) FROM standing_scoring_draw d CROSS JOIN unnest(d.fish_ids) x
         WHERE d.spawn_id = p.id), '{}') AS drawn
     FROM spawn p WHERE p.id IN (SELECT id FROM brood) ORDER BY p.tag, p.id`,
    [traitId, words],
  );

/**
 * Whether a brood was begun to be sorted: it says so, or a fish was decided about that chance had not drawn for scoring. What is left of it
 * then is no random part.
 */
export const isSortingBegun = async (records: Records, spawnId: string): Promise<boolean> => {
  const [row] = (await records.query(
    `SELECT EXISTS (SELECT 1 FROM standing_spawn_event e WHERE e.spawn_id = $1 AND e.kind = 'sorted')
       OR EXISTS (SELECT 1 FROM standing_spawn_count c WHERE c.spawn_id = $1 AND c.stage = 'sorted')
       OR EXISTS (SELECT 1 FROM standing_fish f WHERE f.spawn_id = $1 AND f.disposition IN ('keeper', 'hold', 'culled')
         AND NOT EXISTS (SELECT 1 FROM standing_scoring_draw d WHERE d.spawn_id = $1 AND f.id = ANY(d.fish_ids))) AS begun`,
    [spawnId],
  )) as { begun: boolean }[];
  return row?.begun === true;
};

/** Young of a brood that swim here, are not sorted, were not drawn for scoring yet and have a record of their own, by tag. */
export const openToDraw = async (records: Records, spawnId: string): Promise<string[]> => {
  const rows = (await records.query(
    `SELECT f.id FROM standing_fish f WHERE f.spawn_id = $1 AND f.disposition = 'unsorted' AND ${placeHereSql('f')}
       AND NOT EXISTS (SELECT 1 FROM standing_scoring_draw d WHERE d.spawn_id = $1 AND f.id = ANY(d.fish_ids))
     ORDER BY f.tag, f.id`,
    [spawnId],
  )) as { id: string }[];
  return rows.map(({ id }) => id);
};

/** What was counted of a brood whose parents are both on record; the largest count of each stage. */
export interface CountedBroodRow {
  readonly id: string;
  readonly lineId: string;
  readonly tag: string;
  readonly on: string | null;
  readonly sireId: string;
  readonly damId: string;
  readonly eggs: number | null;
  readonly hatched: number | null;
  readonly freeSwimming: number | null;
  readonly twoWeeks: number | null;
  readonly jarred: number | null;
  readonly sorted: number | null;
  /** Culled for faults taken as inherited, with a record or without. */
  readonly faulty: number;
  /** Counted broods of the line in all, listed or not. */
  readonly ofLine: number;
}

const counted = (stage: string, name: string): string =>
  `(SELECT max(c.number) FROM standing_spawn_count c WHERE c.spawn_id = p.id AND c.stage = '${stage}') AS "${name}"`;

/** Counted broods of lines, the latest first, at most `most`. */
export const countedBroods = (
  records: Records,
  lineIds: readonly string[],
  most: number,
): Promise<CountedBroodRow[]> =>
  records.query(
    `SELECT p.id, p.tag, p.line_id AS "lineId", coalesce(p.spawned_on, p.hatch_date)::text AS "on", p.sire_id AS "sireId", p.dam_id AS "damId",
       ${counted('eggs', 'eggs')}, ${counted('hatched', 'hatched')}, ${counted('free_swimming', 'freeSwimming')},
       ${counted('two_weeks', 'twoWeeks')}, ${counted('jarred', 'jarred')}, ${counted('sorted', 'sorted')},
       coalesce((SELECT sum(l.number)::int FROM standing_spawn_loss l
         WHERE l.spawn_id = p.id AND l.kind = 'culled' AND l.heritable), 0) AS faulty, (count(*) OVER ())::int AS "ofLine"
     FROM standing_spawn p
     WHERE p.line_id = ANY($1::uuid[]) AND p.sire_id IS NOT NULL AND p.dam_id IS NOT NULL AND p.mixed_origin IS NOT TRUE
       AND EXISTS (SELECT 1 FROM standing_spawn_count c WHERE c.spawn_id = p.id)
     ORDER BY coalesce(p.spawned_on, p.hatch_date) DESC NULLS LAST, p.tag LIMIT $2`,
    [lineIds, most],
  );
