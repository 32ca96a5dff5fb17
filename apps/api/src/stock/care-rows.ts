import type { EntityManager } from 'typeorm';
import { CareTemplateRow } from './rows/care.entity.js';
import { thatStands } from './standing.js';

/** A keeper's own calendars that stand, by name. */
export const careTemplatesOf = (
  manager: EntityManager,
  keeperId: string,
): Promise<CareTemplateRow[]> =>
  manager.find(CareTemplateRow, {
    where: { keeperId, ...thatStands },
    order: { name: 'ASC', id: 'ASC' },
  });
