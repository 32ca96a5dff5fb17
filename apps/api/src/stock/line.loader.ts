import { Injectable } from '@nestjs/common';
import DataLoader from 'dataloader';
import { DataSource } from 'typeorm';
import { PerRequest } from '../graphql/per-request.js';
import { rowsById } from '../graphql/row-loader.js';
import { LineRow } from './rows/line.entity.js';

export interface LineCounts {
  readonly fish: number;
  readonly inUse: number;
  readonly spawns: number;
}

const COUNTS = `
  SELECT l.id,
    (SELECT count(*)::int FROM standing_fish f WHERE f.line_id = l.id) AS fish,
    (SELECT count(*)::int FROM fish_in_use f WHERE f.line_id = l.id) AS "inUse",
    (SELECT count(*)::int FROM standing_spawn s WHERE s.line_id = l.id) AS spawns
  FROM line l WHERE l.id = ANY($1::uuid[])`;

@Injectable()
export class LineLoader {
  readonly byId;
  readonly counts: PerRequest<DataLoader<string, LineCounts>>;

  constructor(dataSource: DataSource) {
    this.byId = rowsById(dataSource, LineRow);
    this.counts = new PerRequest(
      () =>
        new DataLoader<string, LineCounts>(async (ids) => {
          const rows = (await dataSource.query(COUNTS, [[...ids]])) as (LineCounts & {
            id: string;
          })[];
          const byId = new Map(rows.map((row) => [row.id, row]));
          return ids.map((id) => byId.get(id) ?? { fish: 0, inUse: 0, spawns: 0 });
        }),
    );
  }
}
