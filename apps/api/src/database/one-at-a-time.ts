import type { EntityManager } from 'typeorm';

/** Of the transactions that name the same key, in whichever process, one goes on; the others wait until it has ended. */
export const oneAtATime = async (manager: EntityManager, key: string): Promise<void> => {
  await manager.query('SELECT pg_advisory_xact_lock(hashtextextended($1, 0))', [key]);
};
