import type { EntityManager } from 'typeorm';
import { RequestError } from '../errors/request-error.js';
import type { FishRow } from '../stock/rows/fish.entity.js';
import { tagOfFish } from '../stock/fish-rows.js';
import { compareTags } from '../stock/tag-order.js';

/** A fish for which an act cannot be done, and why. */
export interface InTheWay {
  readonly id: string;
  readonly tag: string;
  readonly why: string;
}

export interface Went {
  readonly rows: readonly FishRow[];
  readonly inTheWay: readonly InTheWay[];
}

/** Does something for each fish in turn, and gathers those that stand in the way, by tag, in place of ending at the first. */
export const forEachFish = async <Fish extends { readonly id: string }>(
  m: EntityManager,
  fish: readonly Fish[],
  change: (one: Fish) => Promise<FishRow>,
): Promise<Went> => {
  const rows: FishRow[] = [];
  const inTheWay: InTheWay[] = [];
  // Sorted by id: two acts on the same fish wait for each other instead of locking each other out.
  for (const one of [...fish].sort((a, b) => (a.id < b.id ? -1 : 1))) {
    try {
      rows.push(await change(one));
    } catch (error) {
      if (!(error instanceof RequestError)) throw error;
      const tag = (await tagOfFish(m, one.id)) ?? one.id;
      inTheWay.push({ id: one.id, tag, why: error.message });
    }
  }
  return { rows: rows.sort(compareTags), inTheWay: inTheWay.sort(compareTags) };
};

const TOLD = 10;

/** @throws RequestError `VALIDATION` whose `fish` holds the id, tag and reason of each that stands in the way. */
export const expectNoneInTheWay = (inTheWay: readonly InTheWay[], count: number): void => {
  if (inTheWay.length === 0) return;
  const told = inTheWay.slice(0, TOLD).map(({ tag, why }) => `${tag}: ${why}`);
  const more = inTheWay.length > told.length ? ` And ${inTheWay.length - told.length} more.` : '';
  throw new RequestError(
    'VALIDATION',
    `Nothing was changed: ${inTheWay.length} of ${count} fish stand in the way. ${told.join(' ')}${more}`,
    { fish: inTheWay },
  );
};

/** Works in a transaction that is rolled back in any case: what would happen, by the very code that does it. */
export const rolledBack = async <T>(
  manager: EntityManager,
  work: (m: EntityManager) => Promise<T>,
): Promise<T> => {
  const runner = manager.connection.createQueryRunner();
  await runner.startTransaction();
  try {
    return await work(runner.manager);
  } finally {
    await runner.rollbackTransaction();
    await runner.release();
  }
};
