import type { DataSource } from 'typeorm';
import { asSystem, currentActor } from '../access/acting.js';
import { seesAll } from '../access/actor.js';
import { NOT_SHOWN } from '../access/masking.js';
import { sexesOf } from '../stock/named-rows.js';
import type { NamedFishModel } from '../shapes/named-fish.model.js';

/**
 * Fish that the pedigree holds and whoever asks may not see: they stay in the drawing, with their sex and their links, and nothing else is
 * told of them. Costs nothing for who sees all.
 */
export const maskedFish = async (
  dataSource: DataSource,
  ids: readonly string[],
): Promise<NamedFishModel[]> => {
  if (ids.length === 0 || seesAll(currentActor())) return [];
  const rows = await asSystem('masking', () => sexesOf(dataSource, ids));
  return rows.map(({ id, sex }) => ({
    id,
    tag: NOT_SHOWN,
    sex,
    disposition: 'elsewhere',
    hatchDate: null,
    lineCode: null,
  }));
};
