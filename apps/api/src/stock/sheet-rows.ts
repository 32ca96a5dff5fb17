import type { EntityManager } from 'typeorm';
import { notFound } from '../errors/request-error.js';
import type { SheetContent } from './rows/sheet-content.js';
import { ScoreSheetRow, ScoreSheetVersionRow } from './rows/sheet.entity.js';
import { thatStands } from './standing.js';

export const sheetsByName = (
  manager: EntityManager,
  withdrawnToo: boolean,
): Promise<ScoreSheetRow[]> =>
  manager.find(ScoreSheetRow, {
    where: withdrawnToo ? {} : thatStands,
    order: { name: 'ASC', id: 'ASC' },
  });

/** @throws RequestError `NOT_FOUND` for a version that the sheet never had. */
export const sheetVersion = async (
  manager: EntityManager,
  sheetId: string,
  version: number,
): Promise<ScoreSheetVersionRow> => {
  const row = await manager.findOneBy(ScoreSheetVersionRow, { sheetId, version });
  if (row === null) throw notFound(`version ${version} of the score sheet`, sheetId);
  return row;
};

/** Versions are only added: looks were taken by the one that was in force. */
export const addSheetVersion = async (
  manager: EntityManager,
  sheetId: string,
  version: number,
  content: SheetContent,
): Promise<void> => {
  await manager.insert(ScoreSheetVersionRow, { ...content, sheetId, version });
};
