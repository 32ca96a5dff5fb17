import type { DataSource } from 'typeorm';
import type { NamedFishModel } from '../shapes/named-fish.model.js';
import { hiddenParent, hiddenParentTag } from './hidden-parents.js';

const NAMED = `
  SELECT f.id, f.tag, f.sex, f.disposition, f.hatch_date::text AS "hatchDate", l.code AS "lineCode"
  FROM fish f LEFT JOIN line l ON l.id = f.line_id WHERE f.id = ANY($1::uuid[])`;

/** By id, withdrawn ones too: an ancestor stays an ancestor. Hidden parents are named after their spawn. */
export const namedFish = async (
  dataSource: DataSource,
  ids: readonly string[],
): Promise<Map<string, NamedFishModel>> => {
  const hidden = ids.flatMap((id) => {
    const parent = hiddenParent(id);
    return parent === null ? [] : [{ id, ...parent }];
  });
  const recorded = ids.filter((id) => hiddenParent(id) === null);
  const rows = (await dataSource.query(NAMED, [recorded])) as NamedFishModel[];
  const named = new Map(rows.map((row) => [row.id, row]));
  if (hidden.length === 0) return named;
  const spawns = (await dataSource.query('SELECT id, tag FROM spawn WHERE id = ANY($1::uuid[])', [
    [...new Set(hidden.map(({ spawnId }) => spawnId))],
  ])) as { id: string; tag: string }[];
  const tags = new Map(spawns.map(({ id, tag }) => [id, tag]));
  for (const { id, role, spawnId } of hidden) {
    named.set(id, {
      id,
      tag: hiddenParentTag(role, tags.get(spawnId) ?? spawnId),
      sex: role === 'sire' ? 'male' : 'female',
      disposition: 'elsewhere',
      unknownParentOf: spawnId,
      hatchDate: null,
      lineCode: null,
    });
  }
  return named;
};
