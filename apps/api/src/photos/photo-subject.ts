import { registerEnumType } from '@nestjs/graphql';
import type { EntityManager } from 'typeorm';
import { fieldError } from '../errors/request-error.js';
import { eventRecord, fishRecord, scoringRecord, spawnRecord } from '../stock/record-types.js';
import type { RecordStore } from '../stock/record-store.js';

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
  records: RecordStore,
  m: EntityManager,
  kind: PhotoSubject,
  id: string,
): Promise<{ fishId: string | null; spawnId: string | null }> => {
  switch (kind) {
    case 'fish':
      if ((await records.standing(m, fishRecord, id)) !== null)
        return { fishId: id, spawnId: null };
      break;
    case 'spawn':
      if ((await records.standing(m, spawnRecord, id)) !== null)
        return { fishId: null, spawnId: id };
      break;
    case 'spawn_event': {
      const event = await records.standing(m, eventRecord, id);
      if (event !== null) return { fishId: null, spawnId: event.spawnId };
      break;
    }
    case 'sheet_scoring': {
      const scoring = await records.standing(m, scoringRecord, id);
      if (scoring !== null) return { fishId: scoring.fishId, spawnId: null };
      break;
    }
  }
  throw fieldError({
    field: 'of',
    message: `There is no ${kind.replace('_', ' ')} in use with id ${id}: it may have been withdrawn.`,
  });
};
