import type { DataSource } from 'typeorm';
import type { SignedInPerson } from '../graphql/request-context.js';
import { type AccountRow, accountRow } from '../stock/people-rows.js';

/** Whom a row of people stands for here; `null` for whoever has no account. */
const accountOf = (row: AccountRow | null): SignedInPerson | null => {
  if (row === null || row.role === null) return null;
  const { id, name, role, ownerId, amongKeepers } = row;
  const keepsFor = role === 'household' ? (ownerId ?? id) : id;
  return { id, name, role, keepsFor, amongKeepers };
};

/** The account with that id. */
export const accountWithId = async (
  dataSource: DataSource,
  id: string,
): Promise<SignedInPerson | null> => accountOf(await accountRow(dataSource, id));

/** The owner's. */
export const ownerAccount = async (dataSource: DataSource): Promise<SignedInPerson | null> =>
  accountOf(await accountRow(dataSource, null));
