import { Injectable } from '@nestjs/common';
import DataLoader from 'dataloader';
import { DataSource, In } from 'typeorm';
import { PerRequest } from '../graphql/per-request.js';
import { rowsById, rowsByOwner } from '../graphql/row-loader.js';
import { FishRow } from './rows/fish.entity.js';
import { compareTags } from './tag-order.js';
import { thatStands } from './standing.js';

@Injectable()
export class FishLoader {
  readonly byId;
  readonly bySpawn;
  readonly offspringCount: PerRequest<DataLoader<string, number>>;

  constructor(dataSource: DataSource) {
    this.byId = rowsById(dataSource, FishRow);
    this.bySpawn = rowsByOwner(
      async (ids) =>
        (await dataSource.getRepository(FishRow).findBy({ spawnId: In(ids), ...thatStands })).sort(
          compareTags,
        ),
      (row) => row.spawnId,
    );
    this.offspringCount = new PerRequest(
      () =>
        new DataLoader<string, number>(async (ids) => {
          const rows = (await dataSource.query(
            `SELECT p.id, count(f.id)::int AS number
             FROM unnest($1::uuid[]) AS p(id)
             JOIN spawn s ON s.sire_id = p.id OR s.dam_id = p.id
             JOIN standing_fish f ON f.spawn_id = s.id
             GROUP BY p.id`,
            [[...ids]],
          )) as { id: string; number: number }[];
          const byId = new Map(rows.map((row) => [row.id, row.number]));
          return ids.map((id) => byId.get(id) ?? 0);
        }),
    );
  }
}
