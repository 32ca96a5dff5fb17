import { Injectable } from '@nestjs/common';
import { DataSource, type EntityTarget, type FindOptionsOrder, In } from 'typeorm';
import { rowsById, rowsByOwner } from '../graphql/row-loader.js';
import type { RecordRow } from '../database/record.entity.js';
import { SpawnRow } from './rows/spawn.entity.js';
import {
  ClassCountRow,
  SpawnCountRow,
  SpawnEventRow,
  SpawnLossRow,
} from './rows/spawn-log.entity.js';
import { thatStands } from './standing.js';

@Injectable()
export class SpawnLoader {
  readonly byId;
  readonly events;
  readonly counts;
  readonly losses;
  readonly classCounts;
  readonly byParent;
  readonly byPairing;

  constructor(private readonly dataSource: DataSource) {
    this.byId = rowsById(dataSource, SpawnRow);
    this.events = this.recordsOf<SpawnEventRow>(SpawnEventRow, { at: 'ASC', createdAt: 'ASC' });
    this.counts = this.recordsOf<SpawnCountRow>(SpawnCountRow, {
      countedOn: 'ASC',
      createdAt: 'ASC',
    });
    this.losses = this.recordsOf<SpawnLossRow>(SpawnLossRow, { onDate: 'ASC', createdAt: 'ASC' });
    this.classCounts = this.recordsOf<ClassCountRow>(ClassCountRow, {
      countedOn: 'ASC',
      phenotype: 'ASC',
    });
    this.byPairing = rowsByOwner(
      (ids) =>
        dataSource.getRepository(SpawnRow).find({
          where: { pairingId: In(ids), ...thatStands },
          order: { spawnedOn: 'ASC' },
        }),
      (row) => row.pairingId,
    );
    this.byParent = rowsByOwner(
      async (ids) => {
        const spawns = await dataSource.getRepository(SpawnRow).find({
          where: [
            { sireId: In(ids), ...thatStands },
            { damId: In(ids), ...thatStands },
          ],
          order: { spawnedOn: 'DESC', tag: 'DESC' },
        });
        return spawns.flatMap((spawn) =>
          [spawn.sireId, spawn.damId].map((parentId) => ({ parentId, spawn })),
        );
      },
      (row) => row.parentId,
    );
  }

  private recordsOf<Row extends RecordRow & { spawnId: string }>(
    target: EntityTarget<Row>,
    order: FindOptionsOrder<Row>,
  ) {
    return rowsByOwner(
      (ids) =>
        this.dataSource
          .getRepository(target)
          .find({ where: { spawnId: In(ids), ...thatStands } as never, order }),
      (row) => row.spawnId,
    );
  }
}
