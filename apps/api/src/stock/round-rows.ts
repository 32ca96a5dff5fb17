import { type EntityManager, In } from 'typeorm';
import { type KeysetPage, keysetPage } from '../graphql/keyset.js';
import { PairingRow } from './rows/pairing.entity.js';
import { RoundPairRow, RoundRow } from './rows/round.entity.js';
import { standingSql } from './standing.js';

/** Rounds of a line that stand, the newest first. */
export const roundsOfLine = (
  manager: EntityManager,
  lineId: string,
  first: number,
  after: string | undefined,
): Promise<KeysetPage<RoundRow>> =>
  keysetPage(
    manager
      .createQueryBuilder(RoundRow, 'r')
      .where('r.lineId = :lineId', { lineId })
      .andWhere(standingSql('r')),
    'r',
    { key: 'r.created_at', direction: 'DESC', type: 'timestamptz' },
    first,
    after,
  );

export interface RoundPairWithPlan extends RoundPairRow {
  readonly pairing: PairingRow;
}

/** The pairs of rounds, in their places. */
export const pairsOfRounds = async (
  manager: EntityManager,
  roundIds: readonly string[],
): Promise<RoundPairWithPlan[]> => {
  const pairs = await manager.find(RoundPairRow, {
    where: { roundId: In([...roundIds]) },
    order: { roundId: 'ASC', place: 'ASC' },
  });
  const plans = await manager.find(PairingRow, {
    where: { id: In([...new Set(pairs.map(({ pairingId }) => pairingId))]) },
  });
  const byId = new Map(plans.map((row) => [row.id, row]));
  return pairs.map((pair) => ({ ...pair, pairing: byId.get(pair.pairingId)! }));
};

export const addRoundPairs = async (
  manager: EntityManager,
  rows: readonly RoundPairRow[],
): Promise<void> => {
  await manager.insert(RoundPairRow, [...rows]);
};
