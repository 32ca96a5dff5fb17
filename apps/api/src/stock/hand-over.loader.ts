import { Injectable } from '@nestjs/common';
import DataLoader from 'dataloader';
import { DataSource } from 'typeorm';
import { asSystem } from '../access/acting.js';
import { PerRequest } from '../graphql/per-request.js';
import { rowsById, rowsByOwner } from '../graphql/row-loader.js';
import {
  handOversForRequests,
  type LaterSpawn,
  laterSpawnsOf,
  type Since,
  standingOfFish,
} from './hand-over-rows.js';
import { ClubRequestRow } from './rows/club.entity.js';

/** Hand-overs beside fish and requests, and what givers are told of spawns that followed. */
@Injectable()
export class HandOverLoader {
  readonly byFish;
  readonly byRequest;
  readonly requests;
  readonly laterSpawns: PerRequest<DataLoader<Since, LaterSpawn[]>>;

  constructor(dataSource: DataSource) {
    this.byFish = rowsByOwner(
      (ids) => standingOfFish(dataSource.manager, ids),
      (row) => row.fishId,
      { cache: false },
    );
    this.byRequest = rowsByOwner(
      (ids) => handOversForRequests(dataSource.manager, ids),
      (row) => row.requestId,
      { cache: false },
    );
    this.requests = rowsById(dataSource, ClubRequestRow);
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
