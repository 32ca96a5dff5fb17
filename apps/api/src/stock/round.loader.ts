import { Injectable } from '@nestjs/common';
import DataLoader from 'dataloader';
import { DataSource } from 'typeorm';
import { PerRequest } from '../graphql/per-request.js';
import { pairsOfRounds, type RoundPairWithPlan } from './round-rows.js';

/** The pairs of rounds, those of all rounds of a list at once. */
@Injectable()
export class RoundLoader {
  readonly pairs: PerRequest<DataLoader<string, RoundPairWithPlan[]>>;

  constructor(dataSource: DataSource) {
    this.pairs = new PerRequest(
      () =>
        new DataLoader<string, RoundPairWithPlan[]>(
          async (ids) => {
            const rows = await pairsOfRounds(dataSource.manager, ids);
            return ids.map((id) => rows.filter(({ roundId }) => roundId === id));
          },
          // What the same request makes is asked for anew.
          { cache: false },
        ),
    );
  }
}
