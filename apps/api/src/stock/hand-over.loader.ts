import { Injectable } from '@nestjs/common';
import DataLoader from 'dataloader';
import { DataSource } from 'typeorm';
import { asSystem } from '../access/acting.js';
import { PerRequest } from '../graphql/per-request.js';
import { rowsByOwner } from '../graphql/row-loader.js';
import { type LaterSpawn, laterSpawnsOf, type Since, standingOfFish } from './hand-over-rows.js';

/** Hand-overs beside fish, and what givers are told of spawns that followed. */
@Injectable()
export class HandOverLoader {
  readonly byFish;
  readonly laterSpawns: PerRequest<DataLoader<Since, LaterSpawn[]>>;

  constructor(dataSource: DataSource) {
    this.byFish = rowsByOwner(
      (ids) => standingOfFish(dataSource.manager, ids),
      (row) => row.fishId,
      { cache: false },
    );
    this.laterSpawns = new PerRequest(
      () =>
        new DataLoader<Since, LaterSpawn[]>(async (rows) => {
          // Agreed by both, whatever else the giver may see of the fish.
          const found = await asSystem('hand-over', () => laterSpawnsOf(dataSource.manager, rows));
          return rows.map(({ id }) => found.get(id) ?? []);
        }),
    );
  }
}
