import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { rowsById, rowsByOwner } from '../graphql/row-loader.js';
import { VesselRow } from './rows/vessel.entity.js';
import { staysNow } from './vessel-rows.js';

/** Vessels, and who is in them now, in batches. */
@Injectable()
export class VesselLoader {
  readonly byId;
  readonly inVessel;
  readonly ofFish;
  readonly ofSpawn;

  constructor(dataSource: DataSource) {
    this.byId = rowsById(dataSource, VesselRow);
    const now = (of: 'vesselId' | 'fishId' | 'spawnId') =>
      // Asked anew each time: a move answers with what it changed.
      rowsByOwner(
        (ids) => staysNow(dataSource.manager, of, ids),
        (stay) => stay[of],
        { cache: false },
      );
    this.inVessel = now('vesselId');
    this.ofFish = now('fishId');
    this.ofSpawn = now('spawnId');
  }
}
