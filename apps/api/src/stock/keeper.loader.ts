import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { rowsById } from '../graphql/row-loader.js';
import { KeeperRow } from './rows/keeper.entity.js';

@Injectable()
export class KeeperLoader {
  readonly byId;

  constructor(dataSource: DataSource) {
    this.byId = rowsById(dataSource, KeeperRow);
  }
}
