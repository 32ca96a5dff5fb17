import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { rowsById } from '../graphql/row-loader.js';
import { SpawnRow } from '../stock/rows/spawn.entity.js';

@Injectable()
export class WaterLoader {
  readonly spawns;

  constructor(dataSource: DataSource) {
    this.spawns = rowsById(dataSource, SpawnRow);
  }
}
