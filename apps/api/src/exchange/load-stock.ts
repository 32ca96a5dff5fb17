import type { EntityManager } from 'typeorm';
import {
  broodKey,
  type RecordedFish,
  type RecordedStock,
  type RecordedTrait,
} from './recorded-stock.js';
import { spawnCell } from './spawn-column.js';

const FISH = `
  SELECT f.id, f.tag, f.sex, f.hatch_date::text AS "hatchDate", l.code AS "lineCode",
    sire.tag AS "sireTag", dam.tag AS "damTag", f.declared_unrelated IS TRUE AS "declaredUnrelated",
    s.tag AS "spawnTag", s.mixed_origin IS TRUE AS "mixedOrigin", f.withdrawn_at IS NOT NULL AS withdrawn
  FROM fish f
  LEFT JOIN line l ON l.id = f.line_id
  LEFT JOIN spawn s ON s.id = f.spawn_id
  LEFT JOIN fish sire ON sire.id = s.sire_id
  LEFT JOIN fish dam ON dam.id = s.dam_id
  WHERE f.keeper_id = $1`;

/** The latest value that stands for each fish and trait: not withdrawn, and not corrected by a later entry. */
export const STANDING_SCORES = `
  SELECT DISTINCT ON (s.fish_id, s.trait_id) s.fish_id AS "fishId", s.trait_id AS "traitId", s.value
  FROM score s
  WHERE s.withdrawn_at IS NULL AND s.fish_id = ANY($1::uuid[])
    AND NOT EXISTS (SELECT 1 FROM score c WHERE c.corrects_id = s.id AND c.withdrawn_at IS NULL)
  ORDER BY s.fish_id, s.trait_id, s.scored_on DESC, s.created_at DESC, s.id DESC`;

interface SpawnFigures {
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

type RecordedRow = Omit<RecordedFish, 'isSire' | 'isDam' | 'spawn'> & {
  readonly spawnTag: string | null;
  readonly mixedOrigin: boolean;
};

const recordedFish = (
  { spawnTag, mixedOrigin, ...row }: RecordedRow,
  isSire: boolean,
  isDam: boolean,
): RecordedFish => {
  const parents = { hasSire: row.sireTag !== null, hasDam: row.damTag !== null };
  const spawn = spawnCell({ spawnTag, mixedOrigin, ...parents }, row.tag);
  return { ...row, spawn, isSire, isDam };
};

/** What the keeper has recorded so far, as far as an import is checked against it. */
export const loadStock = async (
  manager: EntityManager,
  keeperId: string,
): Promise<RecordedStock> => {
  const all = <Row>(sql: string, parameters: unknown[] = [keeperId]): Promise<Row[]> =>
    manager.query(sql, parameters);
  const fish = await all<RecordedRow>(FISH);
  const parents = await all<{ sireId: string | null; damId: string | null }>(
    `SELECT sire_id AS "sireId", dam_id AS "damId" FROM spawn WHERE withdrawn_at IS NULL`,
    [],
  );
  const sires = new Set(parents.map((p) => p.sireId));
  const dams = new Set(parents.map((p) => p.damId));
  const lines = await all<{ id: string; code: string }>(
    `SELECT id, code FROM line WHERE keeper_id = $1`,
  );
  const traits = await all<RecordedTrait>(
    `SELECT id, key, name, kind, minimum, maximum, version FROM trait_definition
     WHERE keeper_id = $1 AND withdrawn_at IS NULL ORDER BY created_at, key`,
  );
  const spawns = await all<SpawnFigures>(
    `SELECT s.id, s.tag, s.line_id AS "lineId", s.sire_id AS "sireId", s.dam_id AS "damId",
       sire.tag AS "sireTag", dam.tag AS "damTag",
       s.hatch_date::text AS "hatchDate", s.withdrawn_at IS NOT NULL AS withdrawn
     FROM spawn s LEFT JOIN fish sire ON sire.id = s.sire_id LEFT JOIN fish dam ON dam.id = s.dam_id
     WHERE s.keeper_id = $1 ORDER BY s.tag DESC`,
  );
  const standing = await all<{ fishId: string; traitId: string; value: number }>(STANDING_SCORES, [
    fish.map((f) => f.id),
  ]);
  return {
    fish: new Map(fish.map((f) => [f.tag, recordedFish(f, sires.has(f.id), dams.has(f.id))])),
    lines: new Map(lines.map((line) => [line.code, line.id])),
    traits,
    spawns: new Map(
      spawns
        .filter((s) => !s.withdrawn)
        .map((s) => [broodKey(s.sireId, s.damId, s.hatchDate, s.lineId), s.id]),
    ),
    spawnsByTag: new Map(spawns.map((s) => [s.tag, s])),
    standing: new Map(standing.map((s) => [`${s.fishId} ${s.traitId}`, s.value])),
  };
};
