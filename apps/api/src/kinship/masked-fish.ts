import type { DataSource } from 'typeorm';
import { actAs, asSystem, currentActor } from '../access/acting.js';
import { seesAll, seesByGrant } from '../access/actor.js';
import { NOT_SHOWN } from '../access/masking.js';
import { accountWithId, ownerAccount } from '../accounts/known-accounts.js';
import type { Sex } from '../graphql/enums.js';
import { grantsWithAncestors } from '../stock/grant-rows.js';
import { ancestorsAmong, sexesOf } from '../stock/named-rows.js';
import type { NamedFishModel } from '../shapes/named-fish.model.js';

/** What is told of a fish whose record stays hidden; no day and no line where it has no name either. */
const masked = (id: string, sex: Sex, tag = NOT_SHOWN, hatchDate: string | null = null) =>
  ({ id, tag, sex, hatchDate, disposition: 'elsewhere', lineCode: null }) as const;

/**
 * Of these fish the ancestors of lines that were granted to whoever asks with the names of ancestors. Looked up for whoever granted each line,
 * who names none that they do not see themselves.
 */
const namedAncestors = async (
  dataSource: DataSource,
  ids: readonly string[],
): Promise<NamedFishModel[]> => {
  const actor = currentActor();
  if (actor.kind !== 'account' || !seesByGrant(actor.role)) return [];
  const grants = await grantsWithAncestors(dataSource.manager, actor.id);
  const named = new Map<string, NamedFishModel>();
  for (const by of new Set(grants.map(({ byAccountId }) => byAccountId ?? null))) {
    const lender = await asSystem('masking', () =>
      by === null ? ownerAccount(dataSource) : accountWithId(dataSource, by),
    );
    if (lender === null) continue;
    const lineIds = grants
      .filter(({ byAccountId }) => (byAccountId ?? null) === by)
      .map(({ lineId }) => lineId);
    const rows = await actAs({ kind: 'account', ...lender }, () =>
      ancestorsAmong(dataSource, ids, lineIds),
    );
    for (const { id, sex, tag, hatchDate } of rows) named.set(id, masked(id, sex, tag, hatchDate));
  }
  return [...named.values()];
};

/**
 * Fish that the pedigree holds and whoever asks may not see: they stay in the drawing, with their sex and their links, and nothing else is
 * told of them, unless the line was granted with the names of its ancestors. Costs nothing for who sees all.
 */
export const maskedFish = async (
  dataSource: DataSource,
  ids: readonly string[],
): Promise<NamedFishModel[]> => {
  if (ids.length === 0 || seesAll(currentActor())) return [];
  const named = await namedAncestors(dataSource, ids);
  const known = new Set(named.map(({ id }) => id));
  const others = ids.filter((id) => !known.has(id));
  const rows = await asSystem('masking', () => sexesOf(dataSource, others));
  return [...named, ...rows.map(({ id, sex }) => masked(id, sex))];
};
