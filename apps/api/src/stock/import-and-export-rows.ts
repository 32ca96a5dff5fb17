import type { ScoreScale } from '@linewright/merit';
import type { Records } from './reads.js';
import type { FishSex } from './rows/fish.entity.js';
import { withdrawnSql } from './standing.js';

export interface ExportSpawn {
  readonly id: string;
  readonly tag: string;
  readonly mixedOrigin: boolean;
  readonly personName: string;
  readonly own: boolean;
}

/** A fish as a pedigree file tells of it. */
export interface ExportFish {
  readonly id: string;
  readonly tag: string;
  readonly sex: string;
  readonly hatchDate: string | null;
  readonly lineCode: string | null;
  readonly sireId: string | null;
  readonly damId: string | null;
  readonly spawn: ExportSpawn | null;
  /** It has a spawn that whoever asks does not see. */
  readonly spawnHidden?: boolean;
  readonly declaredUnrelated: boolean;
  readonly personName: string;
  readonly own: boolean;
}

/** A person's fish, or those of a line, that stand, and every ancestor they need. */
export const fishToExport = (
  records: Records,
  personId: string,
  lineId: string | null,
): Promise<ExportFish[]> =>
  records.query(
    `WITH RECURSIVE wanted(id) AS (
       SELECT id FROM standing_fish
       WHERE CASE WHEN $2::uuid IS NULL THEN person_id = $1 ELSE line_id = $2 END
       UNION
       SELECT p.parent FROM wanted w
         JOIN fish f ON f.id = w.id JOIN spawn s ON s.id = f.spawn_id
         CROSS JOIN LATERAL (VALUES (s.sire_id), (s.dam_id)) AS p(parent)
       WHERE p.parent IS NOT NULL
     )
     SELECT f.id, f.tag, f.sex, f.hatch_date::text AS "hatchDate", l.code AS "lineCode",
       s.sire_id AS "sireId", s.dam_id AS "damId", k.name AS "personName", f.person_id = $1 AS own,
       f.declared_unrelated IS TRUE AS "declaredUnrelated", f.spawn_id IS NOT NULL AND s.id IS NULL AS "spawnHidden",
       CASE WHEN s.id IS NOT NULL THEN json_build_object('id', s.id, 'tag', s.tag, 'mixedOrigin', s.mixed_origin IS TRUE,
         'personName', sk.name, 'own', s.person_id = $1) END AS spawn
     FROM wanted w JOIN fish f ON f.id = w.id JOIN person k ON k.id = f.person_id
     LEFT JOIN line l ON l.id = f.line_id LEFT JOIN spawn s ON s.id = f.spawn_id LEFT JOIN person sk ON sk.id = s.person_id`,
    [personId, lineId],
  );

export interface FishOfPerson {
  readonly id: string;
  readonly tag: string;
  readonly sex: FishSex;
  readonly hatchDate: string | null;
  readonly lineCode: string | null;
  readonly sireTag: string | null;
  readonly damTag: string | null;
  readonly declaredUnrelated: boolean;
  readonly spawnTag: string | null;
  readonly mixedOrigin: boolean;
  readonly withdrawn: boolean;
}

/** All fish of a person, withdrawn ones too: their tags are taken. */
export const fishOfPerson = (records: Records, personId: string): Promise<FishOfPerson[]> =>
  records.query(
    `SELECT f.id, f.tag, f.sex, f.hatch_date::text AS "hatchDate", l.code AS "lineCode",
       sire.tag AS "sireTag", dam.tag AS "damTag", f.declared_unrelated IS TRUE AS "declaredUnrelated",
       s.tag AS "spawnTag", s.mixed_origin IS TRUE AS "mixedOrigin", ${withdrawnSql('f')} AS withdrawn
     FROM fish f
     LEFT JOIN line l ON l.id = f.line_id
     LEFT JOIN spawn s ON s.id = f.spawn_id
     LEFT JOIN fish sire ON sire.id = s.sire_id
     LEFT JOIN fish dam ON dam.id = s.dam_id
     WHERE f.person_id = $1`,
    [personId],
  );

/** Sire and dam of every spawn that stands. */
export const pairsOfSpawns = (
  records: Records,
): Promise<{ sireId: string | null; damId: string | null }[]> =>
  records.query('SELECT sire_id AS "sireId", dam_id AS "damId" FROM standing_spawn');

/** All lines of a person, withdrawn ones too: their codes are taken. */
export const linesOfPerson = (
  records: Records,
  personId: string,
): Promise<{ id: string; code: string }[]> =>
  records.query('SELECT id, code FROM line WHERE person_id = $1', [personId]);

/** Everybody on record whom the asker may see. */
export const namesOfPeople = (records: Records): Promise<{ id: string; name: string }[]> =>
  records.query('SELECT id, name FROM person ORDER BY here, id');

export interface TraitOfPerson {
  readonly id: string;
  readonly key: string;
  readonly name: string;
  readonly kind: ScoreScale['kind'];
  readonly minimum: number | null;
  readonly maximum: number | null;
  readonly version: number;
}

/** Traits of a person that stand, the oldest first. */
export const traitsOfPerson = (records: Records, personId: string): Promise<TraitOfPerson[]> =>
  records.query(
    `SELECT id, key, name, kind, minimum, maximum, version FROM standing_trait_definition
     WHERE person_id = $1 ORDER BY created_at, key`,
    [personId],
  );

export interface SpawnOfPerson {
  readonly id: string;
  readonly tag: string;
  readonly lineId: string | null;
  readonly sireId: string | null;
  readonly damId: string | null;
  readonly sireTag: string | null;
  readonly damTag: string | null;
  readonly hatchDate: string | null;
  readonly withdrawn: boolean;
}

/** All spawns of a person, withdrawn ones too, the last tag first. */
export const spawnsOfPerson = (records: Records, personId: string): Promise<SpawnOfPerson[]> =>
  records.query(
    `SELECT s.id, s.tag, s.line_id AS "lineId", s.sire_id AS "sireId", s.dam_id AS "damId",
       sire.tag AS "sireTag", dam.tag AS "damTag",
       s.hatch_date::text AS "hatchDate", ${withdrawnSql('s')} AS withdrawn
     FROM spawn s LEFT JOIN fish sire ON sire.id = s.sire_id LEFT JOIN fish dam ON dam.id = s.dam_id
     WHERE s.person_id = $1 ORDER BY s.tag DESC`,
    [personId],
  );
