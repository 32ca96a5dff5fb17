import { type EntityManager, In } from 'typeorm';
import { type KeysetPage, keysetPage } from '../graphql/keyset.js';
import { PairingRow } from './rows/pairing.entity.js';
import { RoundPairRow, RoundRow } from './rows/round.entity.js';
import { SpawnRow } from './rows/spawn.entity.js';
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

/** SQL: the pair is neither dropped nor withdrawn, and not all of its spawns failed; pairings are p, their spawns s, grouped by pairing. */
const PAIR_COUNTS = `${standingSql('p')} AND p.state <> 'dropped' AND (count(s.id) = 0 OR bool_or(NOT s.failed))`;

/** A pair that takes room: of a round that goes on, or planned by hand. */
export interface StandingPair {
  /** `null`: planned by hand, in no round. */
  readonly roundId: string | null;
  readonly pairingId: string;
  readonly sireId: string;
  readonly damId: string;
  /** Not spawned yet. */
  readonly waits: boolean;
}

/**
 * The pairs that take room of a line, the first planned first: those that count of its rounds that go on (of which a pair still waits for its spawn; a
 * pair of two rounds comes once), and those planned in no round that wait for their spawn, with a fish of the line.
 */
export const standingPairsOfLine = async (
  manager: EntityManager,
  lineId: string,
): Promise<StandingPair[]> =>
  (await manager.query(STANDING_PAIRS, [lineId])) as unknown as StandingPair[];

/** The rounds of these pairs, the first planned first. */
export const roundsOfPairs = (
  manager: EntityManager,
  pairs: readonly Pick<StandingPair, 'roundId'>[],
): Promise<RoundRow[]> =>
  manager.find(RoundRow, {
    where: { id: In([...new Set(pairs.flatMap(({ roundId }) => roundId ?? []))]) },
    order: { plannedOn: 'ASC', id: 'ASC' },
  });

const STANDING_PAIRS = `
  WITH of_rounds AS (SELECT DISTINCT ON (p.id) rp.round_id, p.id, p.sire_id, p.dam_id, p.planned_on, p.state = 'planned' AS waits
  FROM standing_round r JOIN round_pair rp ON rp.round_id = r.id JOIN pairing p ON p.id = rp.pairing_id
  LEFT JOIN standing_spawn s ON s.pairing_id = p.id
  WHERE r.line_id = $1 AND EXISTS (
    SELECT FROM round_pair other JOIN pairing waiting ON waiting.id = other.pairing_id
    WHERE other.round_id = r.id AND waiting.state = 'planned' AND ${standingSql('waiting')})
  GROUP BY p.planned_on, p.id, rp.round_id, p.sire_id, p.dam_id, p.state, p.withdrawn_at HAVING ${PAIR_COUNTS}
  ORDER BY p.id, rp.round_id),
  by_hand AS (SELECT NULL::uuid AS round_id, p.id, p.sire_id, p.dam_id, p.planned_on, true AS waits
  FROM pairing p JOIN standing_fish sire ON sire.id = p.sire_id JOIN standing_fish dam ON dam.id = p.dam_id
  WHERE p.state = 'planned' AND ${standingSql('p')} AND $1 IN (sire.line_id, dam.line_id) AND NOT EXISTS (
    SELECT FROM round_pair rp JOIN standing_round r ON r.id = rp.round_id WHERE rp.pairing_id = p.id))
  SELECT round_id AS "roundId", id AS "pairingId", sire_id AS "sireId", dam_id AS "damId", waits
  FROM (SELECT * FROM of_rounds UNION ALL SELECT * FROM by_hand) pair ORDER BY planned_on, id`;

/** One pair of a round: whether it still counts, and whom of its young were kept. */
export interface PairOfRoundKept {
  readonly spawnIds: readonly string[];
  /** Neither dropped nor withdrawn, and not all of its spawns failed. */
  readonly counts: boolean;
  readonly keptMales: number;
  readonly keptFemales: number;
}

/** The newest standing round that a spawn was made in, with what was kept of each of its pairs; `null`: in none. */
export const roundOfSpawn = async (
  manager: EntityManager,
  spawnId: string,
): Promise<{ round: RoundRow; pairs: PairOfRoundKept[] } | null> => {
  const round = await manager
    .createQueryBuilder(RoundRow, 'r')
    .innerJoin(RoundPairRow, 'rp', 'rp.roundId = r.id')
    .innerJoin(SpawnRow, 's', 's.pairingId = rp.pairingId')
    .where('s.id = :spawnId', { spawnId })
    .andWhere(standingSql('r'))
    .orderBy('r.createdAt', 'DESC')
    .limit(1)
    .getOne();
  if (round === null) return null;
  const pairs = (await manager.query(KEPT_BY_PAIR, [round.id])) as PairOfRoundKept[];
  return { round, pairs };
};

const KEPT_BY_PAIR = `
  SELECT coalesce(array_agg(DISTINCT s.id) FILTER (WHERE s.id IS NOT NULL), '{}') AS "spawnIds",
    ${PAIR_COUNTS} AS counts,
    count(f.id) FILTER (WHERE f.sex = 'male')::int AS "keptMales",
    count(f.id) FILTER (WHERE f.sex = 'female')::int AS "keptFemales"
  FROM round_pair rp JOIN pairing p ON p.id = rp.pairing_id
  LEFT JOIN standing_spawn s ON s.pairing_id = p.id
  LEFT JOIN standing_fish f ON f.spawn_id = s.id AND f.disposition = 'keeper'
  WHERE rp.round_id = $1 GROUP BY rp.place, p.id, p.withdrawn_at, p.state ORDER BY rp.place`;
