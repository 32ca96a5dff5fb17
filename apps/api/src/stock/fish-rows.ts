import type { EntityManager } from 'typeorm';
import { FishRow } from './rows/fish.entity.js';
import type { SpawnRow } from './rows/spawn.entity.js';
import { thatStands } from './standing.js';

/** By tag, the owner's own fish before a partner's. */
export const fishByTag = (manager: EntityManager, tag: string): Promise<FishRow | null> =>
  manager
    .createQueryBuilder(FishRow, 'f')
    .innerJoin('person', 'k', 'k.id = f.person_id')
    .where('f.tag = :tag', { tag })
    .orderBy('k.here', 'DESC')
    .getOne();

/** The tag of a fish, withdrawn or not; null where there is none. */
export const tagOfFish = async (manager: EntityManager, id: string): Promise<string | null> =>
  (await manager.findOne(FishRow, { where: { id }, select: { id: true, tag: true } }))?.tag ?? null;

/** How many fish that stand belong to a line, or came from a spawn. */
export const countFishOf = (
  manager: EntityManager,
  of: { readonly lineId: string } | { readonly spawnId: string },
): Promise<number> => manager.countBy(FishRow, { ...of, ...thatStands });

/** Tags of a person's fish of a spawn, of withdrawn ones too: a tag is never used again. */
export const tagsUsedIn = async (
  manager: EntityManager,
  { id, personId }: Pick<SpawnRow, 'id' | 'personId'>,
): Promise<string[]> => {
  const rows = await manager.find(FishRow, {
    where: { personId, spawnId: id },
    select: { tag: true },
  });
  return rows.map(({ tag }) => tag);
};

/** Whether there is any fish, withdrawn or not. */
export const anyFish = (manager: EntityManager): Promise<boolean> => manager.existsBy(FishRow, {});
