import type { Vessel } from '../api/vessels.js';

type Stay = Vessel['stays'][number];

export const vesselKindWord: Record<Vessel['kind'], string> = {
  JAR: 'jar',
  TANK: 'tank',
  TUB: 'tub',
  CONE: 'cone',
  OTHER: 'other',
};

export const companyWord: Record<NonNullable<Stay['company']>, string> = {
  SORORITY: 'females that live together',
  PAIR: 'a pair that is to spawn',
  GROW_OUT: 'young that grow up together, or a parent with its fry',
};

/** Fish by tag, spawns as such. */
export const whoWords = (stays: readonly Pick<Stay, 'fish' | 'spawn'>[]): string =>
  stays
    .flatMap(({ fish, spawn }) => fish?.tag ?? (spawn == null ? [] : `spawn ${spawn.tag}`))
    .join(', ');

/** Where it stands: "Rack 1, shelf 2, position 3". */
export const standsWords = ({
  rack,
  shelf,
  position,
}: Pick<Vessel, 'rack' | 'shelf' | 'position'>): string =>
  [
    rack,
    shelf === null ? null : `shelf ${shelf}`,
    position === null ? null : `position ${position}`,
  ]
    .filter((part) => part !== null)
    .join(', ');
