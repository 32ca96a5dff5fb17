import type { EntityManager } from 'typeorm';
import { HistoryRow } from './rows/history.entity.js';

/** What the history tells of the change that made a record's revision. */
export const changeMade = (
  manager: EntityManager,
  recordId: string,
  revision: number,
): Promise<HistoryRow> => manager.findOneByOrFail(HistoryRow, { recordId, revision });

export const lastChangeOf = (
  manager: EntityManager,
  recordId: string,
): Promise<HistoryRow | null> =>
  manager.findOne(HistoryRow, { where: { recordId }, order: { sequence: 'DESC' } });

/** What one act for several records changed. */
export const changesOfAct = (manager: EntityManager, actId: string): Promise<HistoryRow[]> =>
  manager.findBy(HistoryRow, { actId });

export const countChangesOfAct = (manager: EntityManager, actId: string): Promise<number> =>
  manager.countBy(HistoryRow, { actId });
