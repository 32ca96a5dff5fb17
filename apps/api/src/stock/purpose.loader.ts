import { Injectable } from '@nestjs/common';
import DataLoader from 'dataloader';
import { DataSource } from 'typeorm';
import { PerRequest } from '../graphql/per-request.js';
import { newestPurposes } from './purpose-rows.js';
import type { LinePurposeRow } from './rows/line-purpose.entity.js';

/** What lines are for now, all lines of a list at once. */
@Injectable()
export class PurposeLoader {
  readonly newest: PerRequest<DataLoader<string, LinePurposeRow | null>>;

  constructor(dataSource: DataSource) {
    this.newest = new PerRequest(
      () =>
        new DataLoader<string, LinePurposeRow | null>(
          async (ids) => {
            const rows = await newestPurposes(dataSource.manager, ids);
            return ids.map((id) => rows.get(id) ?? null);
          },
          // What the same request says is asked for anew.
          { cache: false },
        ),
    );
  }
}
