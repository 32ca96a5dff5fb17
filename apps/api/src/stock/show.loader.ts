import { Injectable } from '@nestjs/common';
import { DataSource, In } from 'typeorm';
import { rowsByOwner } from '../graphql/row-loader.js';
import { ShowResultRow } from './rows/show-result.entity.js';
import { thatStands } from './standing.js';

/** Results of shows of fish, the newest first. */
@Injectable()
export class ShowLoader {
  readonly ofFish;

  constructor(dataSource: DataSource) {
    this.ofFish = rowsByOwner(
      (ids) =>
        dataSource.getRepository(ShowResultRow).find({
          where: { fishId: In(ids), ...thatStands },
          order: { onDate: 'DESC', class: 'ASC', id: 'ASC' },
        }),
      (row) => row.fishId,
    );
  }
}
