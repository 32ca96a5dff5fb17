import type { EntityManager } from 'typeorm';
import { CareTemplateRow } from './rows/care.entity.js';
import { thatStands } from './standing.js';

/** A person's own calendars that stand, by name. */
export const careTemplatesOf = (
  manager: EntityManager,
  personId: string,
): Promise<CareTemplateRow[]> =>
  manager.find(CareTemplateRow, {
    where: { personId, ...thatStands },
    order: { name: 'ASC', id: 'ASC' },
  });
