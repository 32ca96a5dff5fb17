import type { EntityManager } from 'typeorm';
import { erasedAmong } from '../stock/own-data/erase-stamps.js';
import type { SharedPerson } from './share-file.js';

/** Of installs by id, those whose people were told. */
export const installsKnown = (
  manager: EntityManager,
  ids: readonly string[],
): Promise<SharedPerson[]> =>
  manager.query(
    'SELECT install_id AS id, name FROM share_install WHERE install_id = ANY($1::uuid[]) ORDER BY name, install_id',
    [ids],
  );

/** Keeps whose installs a partner told of; this one needs no telling. */
export const keepInstalls = async (
  manager: EntityManager,
  installs: readonly SharedPerson[],
  own: string,
): Promise<void> => {
  const erased = await erasedAmong(
    manager,
    installs.map(({ id }) => id),
  );
  await manager.query(
    `INSERT INTO share_install (install_id, name)
     SELECT DISTINCT ON (r.id) r.id, r.name FROM json_to_recordset($1::json) AS r(id uuid, name text) WHERE r.id <> $2
     ON CONFLICT (install_id) DO UPDATE SET name = excluded.name`,
    [JSON.stringify(installs.filter(({ id }) => !erased.has(id))), own],
  );
};
