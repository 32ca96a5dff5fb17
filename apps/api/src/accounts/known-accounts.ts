import type { DataSource } from 'typeorm';
import type { SignedInKeeper } from '../graphql/request-context.js';
import { KeeperRow } from '../stock/rows/keeper.entity.js';

/** Whom a row of people stands for here; `null` for whoever has no account. */
export const accountOf = (row: KeeperRow | null): SignedInKeeper | null =>
  row === null || row.role === null ? null : { id: row.id, name: row.name, role: row.role };

/** The account with that id. */
export const accountWithId = async (
  dataSource: DataSource,
  id: string,
): Promise<SignedInKeeper | null> =>
  accountOf(await dataSource.getRepository(KeeperRow).findOneBy({ id }));

/** The owner's. */
export const ownerAccount = async (dataSource: DataSource): Promise<SignedInKeeper | null> =>
  accountOf(await dataSource.getRepository(KeeperRow).findOneBy({ here: true }));
