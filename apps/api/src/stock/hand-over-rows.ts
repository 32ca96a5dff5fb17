import {
  type DataSource,
  type EntityManager,
  In,
  IsNull,
  LessThanOrEqual,
  MoreThanOrEqual,
  Not,
} from 'typeorm';
import { type KeysetPage, keysetPage } from '../graphql/keyset.js';
import type { Records } from './reads.js';
import { FishRow } from './rows/fish.entity.js';
import { HandOverRow } from './rows/hand-over.entity.js';
import { LineRow } from './rows/line.entity.js';
import { PersonRow } from './rows/person.entity.js';
import { thatStands } from './standing.js';

/** Which hand-overs are listed. */
export interface HandOversOf {
  readonly fishId?: string | null;
  readonly groupId?: string | null;
}

/** Those by or to `me`, or all of a fish that whoever asks may see; the latest first. */
export const handOverPage = (
  dataSource: DataSource,
  { fishId, groupId }: HandOversOf,
  me: string,
  { first, after }: { readonly first: number; readonly after: string | null },
): Promise<KeysetPage<HandOverRow>> => {
  const query = dataSource.getRepository(HandOverRow).createQueryBuilder('h');
  if (fishId != null) query.where('h.fish_id = :fishId', { fishId });
  else query.where('(h.from_id = :me OR h.to_id = :me)', { me });
  if (groupId != null) query.andWhere('h.group_id = :groupId', { groupId });
  const newestFirst = { key: 'h.created_at', type: 'timestamptz', direction: 'DESC' } as const;
  return keysetPage(query, 'h', newestFirst, first, after ?? undefined);
};

/** Offers of these fish that wait for an answer. */
export const openOffersOf = (
  manager: EntityManager,
  fishIds: readonly string[],
): Promise<HandOverRow[]> =>
  manager.find(HandOverRow, {
    where: { fishId: In([...fishIds]), answer: IsNull(), ...thatStands },
  });

/** The loan that a fish is away on. */
export const loanOf = (manager: EntityManager, fishId: string): Promise<HandOverRow | null> =>
  manager.findOne(HandOverRow, {
    where: { fishId, kind: 'loan', movedOn: Not(IsNull()), endedOn: IsNull(), ...thatStands },
  });

/** Gifts and sales by which somebody got a fish that they still have. */
export const gotBy = (
  manager: EntityManager,
  fishId: string,
  personId: string,
): Promise<HandOverRow[]> =>
  manager.find(HandOverRow, {
    where: {
      ...{ fishId, toId: personId, kind: Not('loan' as const) },
      ...{ movedOn: Not(IsNull()), endedOn: IsNull(), ...thatStands },
    },
  });

/** How often a fish has moved. */
export const turnsOf = async (manager: EntityManager, fishId: string): Promise<number> => {
  const [last] = await manager.find(HandOverRow, {
    where: { fishId, turn: Not(IsNull()) },
    order: { turn: 'DESC' },
    take: 1,
  });
  return last?.turn ?? 0;
};

/** Of these, which tags are on another fish of that person, with the fish of the given ones. */
export const tagsTakenBy = async (
  manager: EntityManager,
  personId: string,
  fish: readonly { readonly id: string; readonly tag: string }[],
): Promise<Set<string>> => {
  const rows = await manager.find(FishRow, {
    where: { personId, tag: In(fish.map(({ tag }) => tag)) },
    select: { id: true, tag: true },
  });
  const given = new Set(fish.map(({ id }) => id));
  return new Set(rows.filter(({ id }) => !given.has(id)).map(({ tag }) => tag));
};

/** Codes of lines, withdrawn ones too. */
export const codeOfLine = async (
  manager: EntityManager,
  id: string | null,
): Promise<string | null> =>
  id === null ? null : ((await manager.findOneBy(LineRow, { id }))?.code ?? null);

/** People with an account whom whoever asks knows of, by name; those of the household keep the owner's records and get none of their own. */
export const knownAccounts = (manager: EntityManager, not: string): Promise<PersonRow[]> =>
  manager.find(PersonRow, {
    where: { id: Not(not), role: In(['owner', 'partner', 'keeper']) },
    order: { here: 'DESC', name: 'ASC', id: 'ASC' },
  });

/** A loan that is to be back, fish that were offered or come back, and those in quarantine. */
export const handOversDue = (
  records: Pick<EntityManager, 'find'>,
  me: string,
  day: string,
): Promise<HandOverRow[]> => records.find(HandOverRow, { where: dueTo(me, day), order: DUE_ORDER });

const DUE_ORDER = { offeredOn: 'ASC', tag: 'ASC', id: 'ASC' } as const;

const dueTo = (me: string, day: string) => {
  const moved = { movedOn: Not(IsNull()), endedOn: IsNull(), ...thatStands };
  return [
    // Waits for an answer of mine.
    { toId: me, answer: IsNull(), ...thatStands },
    // The borrower said that it comes back.
    { fromId: me, returnSaidOn: Not(IsNull()), ...moved },
    // To be back by now, for both.
    { fromId: me, kind: 'loan' as const, backOn: LessThanOrEqual(day), ...moved },
    { toId: me, kind: 'loan' as const, backOn: LessThanOrEqual(day), ...moved },
    // In quarantine.
    { toId: me, quarantineUntil: MoreThanOrEqual(day), ...moved },
  ];
};

/** A spawn as somebody who gave a parent of it away is told of it. */
export interface LaterSpawn {
  readonly id: string;
  readonly day: string | null;
  readonly sireTag: string | null;
  readonly damTag: string | null;
  readonly failed: boolean;
  readonly counts: { stage: string; countedOn: string; number: number }[];
}

/** What of a hand-over says which spawns followed it. */
export type Since = Pick<HandOverRow, 'id' | 'fishId' | 'movedOn' | 'endedOn'>;

/** Spawns of fish from the day on which each moved until that came to its end: parents, day and counts, no more. Work: a statement. */
export const laterSpawnsOf = async (
  records: Records,
  moved: readonly Since[],
): Promise<Map<string, LaterSpawn[]>> => {
  const rows = (await records.query(
    `SELECT m.id AS "moveId", s.id, coalesce(s.spawned_on, s.hatch_date)::text AS day, sire.tag AS "sireTag", dam.tag AS "damTag", s.failed,
       coalesce((SELECT json_agg(json_build_object('stage', c.stage, 'countedOn', c.counted_on, 'number', c.number)
           ORDER BY c.counted_on, c.id)
         FROM standing_spawn_count c WHERE c.spawn_id = s.id), '[]') AS counts
     FROM json_to_recordset($1::json) AS m(id uuid, "fishId" uuid, "movedOn" date, "endedOn" date)
     JOIN standing_spawn s ON m."fishId" IN (s.sire_id, s.dam_id) AND coalesce(s.spawned_on, s.hatch_date) >= m."movedOn"
       AND (m."endedOn" IS NULL OR coalesce(s.spawned_on, s.hatch_date) <= m."endedOn")
     LEFT JOIN fish sire ON sire.id = s.sire_id LEFT JOIN fish dam ON dam.id = s.dam_id
     ORDER BY coalesce(s.spawned_on, s.hatch_date), s.id`,
    [JSON.stringify(moved)],
  )) as (LaterSpawn & { moveId: string })[];
  const found = new Map<string, LaterSpawn[]>();
  for (const { moveId, ...spawn } of rows) found.set(moveId, [...(found.get(moveId) ?? []), spawn]);
  return found;
};

/** Hand-overs by id, withdrawn ones too, as far as whoever asks may see them. */
export const handOversById = (
  manager: EntityManager,
  ids: readonly string[],
): Promise<HandOverRow[]> => manager.findBy(HandOverRow, { id: In([...ids]) });

/** Hand-overs that answer these requests, taken back ones too, the earliest first; as far as whoever asks may see them. */
export const handOversForRequests = (
  manager: EntityManager,
  requestIds: readonly string[],
): Promise<HandOverRow[]> =>
  manager.find(HandOverRow, {
    where: { requestId: In([...requestIds]) },
    order: { createdAt: 'ASC', tag: 'ASC', id: 'ASC' },
  });

/** All that were offered in one act. */
export const offeredTogether = (manager: EntityManager, groupId: string): Promise<HandOverRow[]> =>
  manager.find(HandOverRow, { where: { groupId }, order: { tag: 'ASC' } });

/** Offers of these fish that wait, and hand-overs by which they are where they are; as far as whoever asks may see them. */
export const standingOfFish = (
  manager: EntityManager,
  fishIds: readonly string[],
): Promise<HandOverRow[]> => {
  const of = { fishId: In([...fishIds]), ...thatStands };
  return manager.find(HandOverRow, {
    where: [
      { ...of, answer: IsNull() },
      { ...of, answer: 'accepted' as const, endedOn: IsNull() },
    ],
    order: { createdAt: 'DESC', id: 'ASC' },
  });
};
