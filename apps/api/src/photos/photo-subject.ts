import { registerEnumType } from '@nestjs/graphql';
import { type EntityManager } from 'typeorm';
import { fieldError } from '../errors/request-error.js';
import { FishRow } from '../stock/rows/fish.entity.js';
import { SheetScoringRow } from '../stock/rows/sheet.entity.js';
import { SpawnEventRow } from '../stock/rows/spawn-entries.entity.js';
import { SpawnRow } from '../stock/rows/spawn.entity.js';
import { thatStands } from '../stock/standing.js';

/** What a picture may show. */
export const PhotoSubject = {
  FISH: 'fish',
  SPAWN: 'spawn',
  SPAWN_EVENT: 'spawn_event',
  SHEET_SCORING: 'sheet_scoring',
} as const;
export type PhotoSubject = (typeof PhotoSubject)[keyof typeof PhotoSubject];

registerEnumType(PhotoSubject, {
  name: 'PhotoSubject',
  description: 'What a picture shows.',
  valuesMap: {
    FISH: { description: 'A fish.' },
    SPAWN: { description: 'A spawn.' },
    SPAWN_EVENT: { description: 'An event of a spawn.' },
    SHEET_SCORING: { description: 'A fish as it looked when it was scored on a sheet.' },
  },
});

export const isPhotoSubject = (text: string): text is PhotoSubject =>
  Object.values(PhotoSubject).some((value) => value === text);

/** The fish or spawn on whose page a picture of the subject stands; a subject that is not on record is an error. */
export const pageOf = async (
  m: EntityManager,
  kind: PhotoSubject,
  id: string,
): Promise<{ fishId: string | null; spawnId: string | null }> => {
  const where = { id, ...thatStands };
  switch (kind) {
    case 'fish':
      if (await m.existsBy(FishRow, where)) return { fishId: id, spawnId: null };
      break;
    case 'spawn':
      if (await m.existsBy(SpawnRow, where)) return { fishId: null, spawnId: id };
      break;
    case 'spawn_event': {
      const event = await m.findOneBy(SpawnEventRow, where);
      if (event !== null) return { fishId: null, spawnId: event.spawnId };
      break;
    }
    case 'sheet_scoring': {
      const scoring = await m.findOneBy(SheetScoringRow, where);
      if (scoring !== null) return { fishId: scoring.fishId, spawnId: null };
      break;
    }
  }
  throw fieldError({
    field: 'of',
    message: `There is no ${kind.replace('_', ' ')} in use with id ${id}: it may have been withdrawn.`,
  });
};
