import type { EntityManager } from 'typeorm';
import { LineGrantRow } from './rows/line-grant.entity.js';

/** What may be seen of a line, by whom: of one line or of all; an account that sees a part of the records finds its own alone. */
export const lineGrants = (
  manager: EntityManager,
  lineId: string | null,
): Promise<LineGrantRow[]> =>
  manager.find(LineGrantRow, {
    where: lineId === null ? {} : { lineId },
    order: { grantedAt: 'ASC', accountId: 'ASC', lineId: 'ASC' },
  });

/** Grants to an account that name ancestors outside of the line. */
export const grantsWithAncestors = (
  manager: EntityManager,
  accountId: string,
): Promise<LineGrantRow[]> => manager.findBy(LineGrantRow, { accountId, ancestors: true });

/** Grants it, or changes what was granted. */
export const putLineGrant = async (manager: EntityManager, row: LineGrantRow): Promise<void> => {
  await manager.upsert(LineGrantRow, row, ['accountId', 'lineId']);
};

/** Takes back what an account may see of a line, or of every line. */
export const endLineGrants = async (
  manager: EntityManager,
  of: { readonly accountId: string; readonly lineId?: string },
): Promise<void> => {
  await manager.delete(LineGrantRow, of);
};
