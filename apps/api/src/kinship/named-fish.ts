import type { DataSource } from 'typeorm';
import type { NamedFishModel } from '../shapes/named-fish.model.js';
import { hiddenParent, hiddenParentTag } from './hidden-parents.js';
import { maskedFish } from './masked-fish.js';

const NAMED = `
  SELECT f.id, f.tag, f.sex, f.disposition, f.hatch_date::text AS "hatchDate", l.code AS "lineCode"
  FROM fish f LEFT JOIN line l ON l.id = f.line_id WHERE f.id = ANY($1::uuid[])`;

/**
 * By id, withdrawn ones too: an ancestor stays an ancestor. Hidden parents are named after their spawn; of fish that whoever asks may not
 * see, the tag is not shown, or they are absent where they were asked for by id.
 */
export const namedFish = async (
  dataSource: DataSource,
  ids: readonly string[],
  unseen: 'masked' | 'absent' = 'masked',
): Promise<Map<string, NamedFishModel>> => {
  const hidden = ids.flatMap((id) => {
    const parent = hiddenParent(id);
    return parent === null ? [] : [{ id, ...parent }];
  });
  const recorded = ids.filter((id) => hiddenParent(id) === null);
  const rows = (await dataSource.query(NAMED, [recorded])) as NamedFishModel[];
  const named = new Map(rows.map((row) => [row.id, row]));
  const others = unseen === 'masked' ? recorded.filter((id) => !named.has(id)) : [];
  for (const one of await maskedFish(dataSource, others)) named.set(one.id, one);
  if (hidden.length === 0) return named;
  const spawns = (await dataSource.query('SELECT id, tag FROM spawn WHERE id = ANY($1::uuid[])', [
    [...new Set(hidden.map(({ spawnId }) => spawnId))],
  ])) as { id: string; tag: string }[];
  const tags = new Map(spawns.map(({ id, tag }) => [id, tag]));
  for (const { id, role, spawnId } of hidden) {
    named.set(id, {
      id,
      tag: hiddenParentTag(role, tags.get(spawnId)),
      sex: role === 'sire' ? 'male' : 'female',
      disposition: 'elsewhere',
      unknownParentOf: tags.has(spawnId) ? spawnId : null,
      hatchDate: null,
      lineCode: null,
    });
  }
  return named;
};
