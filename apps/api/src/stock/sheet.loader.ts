import { Injectable } from '@nestjs/common';
import { DataSource, In } from 'typeorm';
import { rowsById, rowsByOwner } from '../graphql/row-loader.js';
import { ScoreSheetRow, ScoreSheetVersionRow, SheetScoringRow } from './rows/sheet.entity.js';

@Injectable()
export class SheetLoader {
  readonly sheets;
  /** All versions of a sheet, oldest first. */
  readonly versions;
  /** Looks at a fish, newest first. */
  readonly scoringsOfFish;

  constructor(dataSource: DataSource) {
    this.sheets = rowsById(dataSource, ScoreSheetRow);
    this.versions = rowsByOwner(
      (ids) =>
        dataSource
          .getRepository(ScoreSheetVersionRow)
          .find({ where: { sheetId: In(ids) }, order: { version: 'ASC' } }),
      (row) => row.sheetId,
    );
    this.scoringsOfFish = rowsByOwner(
      (ids) =>
        dataSource.getRepository(SheetScoringRow).find({
          where: { fishId: In(ids) },
          order: { scoredOn: 'DESC', createdAt: 'DESC', id: 'ASC' },
        }),
      (row) => row.fishId,
    );
  }
}
