import { type EntityManager, In } from 'typeorm';
import type { Records } from './reads.js';
import { ScoreRow, TraitDefinitionRow } from './rows/score.entity.js';
import { thatStands } from './standing.js';

/** A score in force, as repeats of a trait are judged by it. */
export interface ScoreOfTrait {
  readonly fish: string;
  readonly tag: string;
  readonly scorer: string;
  readonly value: number;
  readonly scoredOn: string;
  readonly version: number;
  readonly day: number;
}

/** Scores in force of a trait, of fish that stand: by tag, then by day. */
export const scoresOfTrait = (records: Records, traitId: string): Promise<ScoreOfTrait[]> =>
  records.query(
    `SELECT s.fish_id AS fish, f.tag, s.scorer, s.value, s.scored_on::text AS "scoredOn",
       s.trait_version AS version, (s.scored_on - DATE '2000-01-01') AS day
     FROM score_in_force s JOIN standing_fish f ON f.id = s.fish_id
     WHERE s.trait_id = $1
     ORDER BY f.tag, s.scored_on, s.created_at, s.id`,
    [traitId],
  );

export interface MarkedScore {
  readonly photoId: string;
  readonly value: number;
  readonly scorer: string;
}

/** Scores in force of a trait that were measured on pictures. */
export const markedScores = (
  records: Records,
  traitId: string,
  version: number,
): Promise<MarkedScore[]> =>
  records.query(
    `SELECT s.marking ->> 'photoId' AS "photoId", s.value, s.scorer FROM score_in_force s
     JOIN standing_fish f ON f.id = s.fish_id
     WHERE s.trait_id = $1 AND s.trait_version = $2 AND s.marking IS NOT NULL
     ORDER BY s.created_at, s.id`,
    [traitId, version],
  );

export interface LatestScore {
  readonly fishId: string;
  readonly traitId: string;
  readonly value: number;
}

/** SQL: of the scores of one fish and trait, the latest first. */
export const latestFirst = (alias: string): string =>
  `${alias}.scored_on DESC, ${alias}.created_at DESC, ${alias}.id DESC`;

/** The latest value in force for each fish and trait. */
export const latestScores = (
  records: Records,
  fishIds: readonly string[],
): Promise<LatestScore[]> =>
  records.query(
    `SELECT DISTINCT ON (s.fish_id, s.trait_id) s.fish_id AS "fishId", s.trait_id AS "traitId", s.value
     FROM score_in_force s WHERE s.fish_id = ANY($1::uuid[])
     ORDER BY s.fish_id, s.trait_id, ${latestFirst('s')}`,
    [fishIds],
  );

/** Names of traits, withdrawn ones too, the oldest first. */
export const namesOfTraits = (
  records: Records,
  ids: readonly string[],
): Promise<{ id: string; name: string }[]> =>
  records.query(
    'SELECT id, name FROM trait_definition WHERE id = ANY($1::uuid[]) ORDER BY created_at, name, id',
    [ids],
  );

export const scoresById = (manager: EntityManager, ids: readonly string[]): Promise<ScoreRow[]> =>
  manager.findBy(ScoreRow, { id: In([...ids]) });

/** The values of a look at a whole fish on a sheet, withdrawn ones too. */
export const valuesOfLook = (manager: EntityManager, scoringId: string): Promise<ScoreRow[]> =>
  manager.findBy(ScoreRow, { scoringId });

/** Whether a later score that stands corrects this one; the correction withdrawn, it is in force again. */
export const isCorrected = (manager: EntityManager, scoreId: string): Promise<boolean> =>
  manager.existsBy(ScoreRow, { correctsId: scoreId, ...thatStands });

export const traitsByName = (
  manager: EntityManager,
  withdrawnToo: boolean,
): Promise<TraitDefinitionRow[]> =>
  manager.find(TraitDefinitionRow, {
    where: withdrawnToo ? {} : thatStands,
    order: { name: 'ASC', id: 'ASC' },
  });

/** Of these traits, those that stand. */
export const standingTraits = (
  manager: EntityManager,
  ids: readonly string[],
): Promise<TraitDefinitionRow[]> =>
  manager.findBy(TraitDefinitionRow, { id: In([...ids]), ...thatStands });

/** A person's trait with that key, withdrawn or not: a key is never used again. */
export const traitWithKey = (
  manager: EntityManager,
  personId: string,
  key: string,
): Promise<TraitDefinitionRow | null> => manager.findOneBy(TraitDefinitionRow, { personId, key });
