import type { EntityManager } from 'typeorm';

/** Whatever answers SQL for the one who asks: a data source, or the transaction that is under way. */
export type Records = Pick<EntityManager, 'query'>;
