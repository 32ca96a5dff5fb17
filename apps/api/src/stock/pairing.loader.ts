import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { rowsById } from '../graphql/row-loader.js';
import { PairingRow } from './rows/pairing.entity.js';

@Injectable()
export class PairingLoader {
  readonly byId;

  constructor(dataSource: DataSource) {
    this.byId = rowsById(dataSource, PairingRow);
  }
}
