import { Injectable } from '@nestjs/common';
import { DataSource, In } from 'typeorm';
import { rowsByOwner } from '../graphql/row-loader.js';
import { PhotoRow } from './rows/photo.entity.js';
import { thatStands } from './standing.js';

/** Pictures in force on the pages of fish and spawns, newest first. */
@Injectable()
export class PhotoLoader {
  readonly ofFish;
  readonly ofSpawn;

  constructor(dataSource: DataSource) {
    const on = (key: 'fishId' | 'spawnId') =>
      rowsByOwner(
        (ids) =>
          dataSource.getRepository(PhotoRow).find({
            where: { [key]: In(ids), ...thatStands },
            order: { takenOn: { direction: 'DESC', nulls: 'LAST' }, createdAt: 'DESC', id: 'ASC' },
          }),
        (row) => row[key],
      );
    this.ofFish = on('fishId');
    this.ofSpawn = on('spawnId');
  }
}
