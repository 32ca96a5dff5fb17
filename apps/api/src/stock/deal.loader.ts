import { Injectable } from '@nestjs/common';
import { DataSource, In } from 'typeorm';
import { rowsByOwner } from '../graphql/row-loader.js';
import { FishDealRow } from './rows/fish-deal.entity.js';
import { thatStands } from './standing.js';

/** What was paid, asked and got for fish, the newest first. */
@Injectable()
export class DealLoader {
  readonly ofFish;

  constructor(dataSource: DataSource) {
    this.ofFish = rowsByOwner(
      (ids) =>
        dataSource.getRepository(FishDealRow).find({
          where: { fishId: In(ids), ...thatStands },
          order: { onDate: 'DESC', createdAt: 'DESC', id: 'ASC' },
        }),
      (row) => row.fishId,
    );
  }
}
