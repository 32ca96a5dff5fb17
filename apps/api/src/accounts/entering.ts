import type { DataSource, EntityManager } from 'typeorm';
import { asSystem } from '../access/acting.js';

/** Work on accounts before it is known who asks, and for nobody but the person themselves after. */
export const entering = <Answer>(
  { manager }: DataSource,
  work: (manager: EntityManager) => Promise<Answer>,
): Promise<Answer> => asSystem('entrance', () => work(manager));
