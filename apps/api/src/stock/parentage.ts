import type { EntityManager } from 'typeorm';
import { FieldChecks } from '../errors/field-checks.js';
import { fieldError } from '../errors/request-error.js';
import { FishRow } from './rows/fish.entity.js';

interface Young {
  /** Spawn whose parents are being set; `null` for one not saved yet. */
  readonly spawnId: string | null;
  readonly sireId: string | null;
  readonly damId: string | null;
  readonly hatchDate: string | null;
}

/** The fish of `$1` and all their recorded ancestors. */
const ANCESTORS = `
  WITH RECURSIVE ancestor(id) AS (
    SELECT unnest($1::uuid[])
    UNION
    SELECT p.id FROM ancestor a
    JOIN fish f ON f.id = a.id
    JOIN spawn s ON s.id = f.spawn_id
    CROSS JOIN LATERAL (VALUES (s.sire_id), (s.dam_id)) AS p(id)
    WHERE p.id IS NOT NULL
  )`;

/** Tag of the first fish of the condition that is among `fishIds` or their ancestors. */
const ancestorWhere = async (
  manager: EntityManager,
  fishIds: readonly string[],
  condition: 'f.id = $2' | 'f.spawn_id = $2',
  id: string,
): Promise<string | null> => {
  const [found] = (await manager.query(
    `${ANCESTORS} SELECT f.tag FROM ancestor a JOIN fish f ON f.id = a.id WHERE ${condition} LIMIT 1`,
    [fishIds, id],
  )) as { tag: string }[];
  return found?.tag ?? null;
};

/** Refuses parents that are the fish itself or descend from it. */
export const expectNotOwnAncestor = async (
  manager: EntityManager,
  fish: { readonly id: string; readonly tag: string },
  parents: readonly (string | null | undefined)[],
): Promise<void> => {
  const ids = parents.filter((id) => id !== null && id !== undefined);
  if (ids.length === 0 || (await ancestorWhere(manager, ids, 'f.id = $2', fish.id)) === null) {
    return;
  }
  throw fieldError({
    field: 'sireId',
    message: `${fish.tag} would be its own ancestor: choose parents that do not descend from it.`,
  });
};

const expectParent = async (
  manager: EntityManager,
  id: string | null,
  role: 'sire' | 'dam',
  young: Young,
): Promise<void> => {
  if (id === null) return;
  const field = `${role}Id`;
  const parent = await manager.findOneBy(FishRow, { id });
  if (parent === null)
    throw fieldError({
      field,
      message: `There is no fish ${id} to be the ${role}: choose a recorded one.`,
    });
  if (parent.withdrawnAt !== null) {
    throw fieldError({ field, message: `${parent.tag} was withdrawn: choose another ${role}.` });
  }
  const wrong = role === 'sire' ? 'female' : 'male';
  if (parent.sex === wrong) {
    throw fieldError({
      field,
      message: `${parent.tag} is recorded as ${wrong} and cannot be a ${role}: choose another fish or correct its sex.`,
    });
  }
  if (
    parent.hatchDate !== null &&
    young.hatchDate !== null &&
    parent.hatchDate >= young.hatchDate
  ) {
    throw fieldError({
      field,
      message: `${parent.tag} hatched on ${parent.hatchDate}, not before its young (${young.hatchDate}): correct one of the dates or choose another ${role}.`,
    });
  }
};

/** Refuses parents that cannot be: wrong sex, younger than the young, the same fish twice, or a fish's own descendant. */
export const expectPossibleParents = async (
  manager: EntityManager,
  young: Young,
): Promise<void> => {
  if (young.sireId !== null && young.sireId === young.damId) {
    throw fieldError({ field: 'damId', message: 'Sire and dam are the same fish: choose two.' });
  }
  const checks = new FieldChecks();
  await checks.keep(() => expectParent(manager, young.sireId, 'sire', young));
  await checks.keep(() => expectParent(manager, young.damId, 'dam', young));
  checks.expectNone();
  const parents = [young.sireId, young.damId].filter((id) => id !== null);
  if (young.spawnId === null || parents.length === 0) return;
  const own = await ancestorWhere(manager, parents, 'f.spawn_id = $2', young.spawnId);
  if (own !== null) {
    throw fieldError({
      field: 'sireId',
      message: `${own} would be its own ancestor: it came from this spawn and stands behind one of these parents.`,
    });
  }
};
