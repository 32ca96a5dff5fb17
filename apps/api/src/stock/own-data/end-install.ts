import type { EntityManager } from 'typeorm';
import { clearTables } from '../whole-stock.js';

/** Takes everything away, for everybody: an install without an owner is left, as at its first start. */
export const endInstall = async (manager: EntityManager): Promise<void> => {
  await manager.query('SELECT 1 FROM install_state WHERE id = 1 FOR UPDATE');
  await clearTables(manager);
  await manager.query(
    'UPDATE install_state SET demo = false, home_network = false, pedigree_revision = pedigree_revision + 1 WHERE id = 1',
  );
};
