import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager, In } from 'typeorm';
import { rowsByOwner } from '../graphql/row-loader.js';
import { PhotoRow } from './rows/photo.entity.js';
import { thatStands } from './standing.js';

/** The newest picture in force of each of these fish, in one statement; those of a day by when they were added. */
export const newestPhotos = (
  manager: EntityManager,
  fishIds: readonly string[],
): Promise<PhotoRow[]> =>
  manager
    .createQueryBuilder(PhotoRow, 'p')
    .distinctOn(['p.fish_id'])
    .where({ fishId: In([...fishIds]), ...thatStands })
    .orderBy('p.fish_id')
    .addOrderBy('p.taken_on', 'DESC', 'NULLS LAST')
    .addOrderBy('p.created_at', 'DESC')
    .addOrderBy('p.id')
    .getMany();

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
