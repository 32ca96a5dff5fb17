import type { DataSource } from 'typeorm';
import type { NamedFishModel } from '../shapes/named-fish.model.js';
import { namedRows, tagsOfSpawns } from '../stock/named-rows.js';
import { hiddenParent, hiddenParentTag } from './hidden-parents.js';
import { maskedFish } from './masked-fish.js';

/**
 * By id, withdrawn ones too: an ancestor stays an ancestor. Hidden parents are named after their spawn; of fish that whoever asks may not
 * see, the tag is not shown, or they are absent where they were asked for by id.
 */
export const namedFish = async (
  dataSource: DataSource,
  ids: readonly string[],
  unseen: 'masked' | 'absent' = 'masked',
): Promise<Map<string, NamedFishModel>> => {
  if (ids.length === 0) return new Map();
  const hidden = ids.flatMap((id) => {
    const parent = hiddenParent(id);
    return parent === null ? [] : [{ id, ...parent }];
  });
  const recorded = ids.filter((id) => hiddenParent(id) === null);
  const rows = await namedRows(dataSource, recorded);
  const named = new Map<string, NamedFishModel>(rows.map((row) => [row.id, row]));
  const others = unseen === 'masked' ? recorded.filter((id) => !named.has(id)) : [];
  for (const one of await maskedFish(dataSource, others)) named.set(one.id, one);
  if (hidden.length === 0) return named;
  const tags = await tagsOfSpawns(dataSource, [...new Set(hidden.map(({ spawnId }) => spawnId))]);
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
