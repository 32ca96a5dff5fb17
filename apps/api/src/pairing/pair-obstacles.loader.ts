import type { PairingWarning } from '@linewright/mating';
import { Injectable } from '@nestjs/common';
import DataLoader from 'dataloader';
import { DataSource } from 'typeorm';
import { PerRequest } from '../graphql/per-request.js';
import { candidateRows } from '../stock/candidate-rows.js';
import { obstaclesOf, rulesOfLines } from './pair-obstacles.js';

interface PlannedPair {
  readonly sireId: string;
  readonly damId: string;
  readonly day: string;
}

/** What stands in the way of planned pairs, all pairs of a list at once. */
@Injectable()
export class PairObstaclesLoader {
  readonly of: PerRequest<DataLoader<PlannedPair, readonly PairingWarning[]>>;

  constructor(dataSource: DataSource) {
    this.of = new PerRequest(
      () =>
        new DataLoader<PlannedPair, readonly PairingWarning[]>(async (pairs) => {
          const ids = new Set(pairs.flatMap(({ sireId, damId }) => [sireId, damId]));
          const rows = await candidateRows(dataSource.manager, [...ids], null);
          const rules = await rulesOfLines(dataSource.manager, rows);
          const byId = new Map(rows.map((row) => [row.id, row]));
          return pairs.map(({ sireId, damId, day }) => {
            const [sire, dam] = [byId.get(sireId), byId.get(damId)];
            return sire && dam ? obstaclesOf(sire, dam, day, rules) : [];
          });
        }),
    );
  }
}
