import type { Records } from './reads.js';

/** A fish as the pedigree is built from it; withdrawn ones too. */
export interface ParentageRow {
  readonly id: string;
  readonly sire: string | null;
  readonly dam: string | null;
  readonly spawnId: string | null;
  /** Its spawn holds young of several broods: they are sibs only by the parents on record. */
  readonly mixed: boolean;
}

/** What the pedigree is made of: all fish, by id. */
export const allParentage = (
  records: Records,
): Promise<(ParentageRow & { readonly declared: boolean })[]> =>
  records.query(
    `SELECT f.id, s.sire_id AS sire, s.dam_id AS dam, f.spawn_id AS "spawnId", s.mixed_origin IS TRUE AS mixed,
       f.declared_unrelated IS TRUE AS declared
     FROM fish f LEFT JOIN spawn s ON s.id = f.spawn_id ORDER BY f.id`,
  );

/** All fish with their tags and parents, for what is told of a circle in the pedigree. */
export const taggedParentage = (
  records: Records,
): Promise<{ id: string; tag: string; sireId: string | null; damId: string | null }[]> =>
  records.query(
    `SELECT f.id, f.tag, s.sire_id AS "sireId", s.dam_id AS "damId" FROM fish f LEFT JOIN spawn s ON s.id = f.spawn_id`,
  );

/** Number of the pedigree's last change. */
export const pedigreeRevision = async (records: Records): Promise<string> => {
  const [row] = (await records.query(
    'SELECT pedigree_revision::text AS revision FROM install_state WHERE id = 1',
  )) as { revision: string }[];
  return row?.revision ?? '0';
};

interface Tagged {
  readonly id: string;
  readonly tag: string;
}

/** Fish that are a parent of any spawn. */
export const recordedParents = (records: Records): Promise<Tagged[]> =>
  records.query(
    'SELECT DISTINCT f.id, f.tag FROM fish f JOIN spawn s ON s.sire_id = f.id OR s.dam_id = f.id',
  );

/** Spawns of which a parent is not known. */
export const spawnsOfUnknownParents = (records: Records): Promise<Tagged[]> =>
  records.query('SELECT id, tag FROM spawn WHERE sire_id IS NULL OR dam_id IS NULL');

/** What became of a pair's mating. */
export interface PastSpawnRow {
  readonly sireId: string;
  readonly damId: string;
  readonly on: string | null;
  readonly failed: boolean;
  readonly reason: string | null;
}

/** Spawns that a fish had a part in, failed ones too. */
export const spawnsOfFish = (records: Records, id: string): Promise<{ failed: boolean }[]> =>
  records.query('SELECT failed FROM standing_spawn WHERE sire_id = $1 OR dam_id = $1', [id]);

/** Spawns of two of these fish. */
export const spawnsAmong = (records: Records, ids: readonly string[]): Promise<PastSpawnRow[]> =>
  records.query(
    `SELECT sire_id AS "sireId", dam_id AS "damId", spawned_on::text AS "on", failed, failed_reason AS reason
     FROM standing_spawn WHERE sire_id = ANY($1::uuid[]) AND dam_id = ANY($1::uuid[])`,
    [ids],
  );
