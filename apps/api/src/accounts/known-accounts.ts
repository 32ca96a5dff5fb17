import type { DataSource } from 'typeorm';
import type { SignedInPerson } from '../graphql/request-context.js';
import { PersonRow } from '../stock/rows/person.entity.js';

/** Whom a row of people stands for here; `null` for whoever has no account. `ownerId`: whose records those of the household keep. */
const accountOf = (row: PersonRow | null, ownerId: string | null): SignedInPerson | null => {
  if (row === null || row.role === null) return null;
  const keepsFor = row.role === 'household' ? (ownerId ?? row.id) : row.id;
  return { id: row.id, name: row.name, role: row.role, keepsFor };
};

/** The account with that id. */
export const accountWithId = async (
  dataSource: DataSource,
  id: string,
): Promise<SignedInPerson | null> => {
  const people = dataSource.getRepository(PersonRow);
  const row = await people.findOneBy({ id });
  const owner = row?.role === 'household' ? await people.findOneBy({ here: true }) : null;
  return accountOf(row, owner?.id ?? null);
};

/** The owner's. */
export const ownerAccount = async (dataSource: DataSource): Promise<SignedInPerson | null> =>
  accountOf(await dataSource.getRepository(PersonRow).findOneBy({ here: true }), null);
