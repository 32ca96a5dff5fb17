import { Injectable } from '@nestjs/common';
import DataLoader from 'dataloader';
import { DataSource, In } from 'typeorm';
import { PerRequest } from '../graphql/per-request.js';
import { rowsByOwner } from '../graphql/row-loader.js';
import { CareRecordRow, CareTemplateRow } from './rows/care.entity.js';
import { thatStands } from './standing.js';

@Injectable()
export class CareLoader {
  /** Records in force of a spawn, in order of time. */
  readonly records;
  /** The calendars in force, by line. */
  readonly templates: PerRequest<DataLoader<string, CareTemplateRow | null>>;

  constructor(dataSource: DataSource) {
    this.records = rowsByOwner(
      (ids) =>
        dataSource.getRepository(CareRecordRow).find({
          where: { spawnId: In(ids), ...thatStands },
          order: { at: 'ASC', id: 'ASC' },
        }),
      (row) => row.spawnId,
    );
    this.templates = new PerRequest(
      () =>
        new DataLoader<string, CareTemplateRow | null>(async (lineIds) => {
          const rows = await dataSource.getRepository(CareTemplateRow).find({
            where: { lineId: In([...lineIds]), ...thatStands },
          });
          return lineIds.map((id) => rows.find((row) => row.lineId === id) ?? null);
        }),
    );
  }
}
