import type { DataSource } from 'typeorm';
import type { SignedInPerson } from '../graphql/request-context.js';
import { PersonRow } from '../stock/rows/person.entity.js';

/** Whom a row of people stands for here; `null` for whoever has no account. */
export const accountOf = (row: PersonRow | null): SignedInPerson | null =>
  row === null || row.role === null ? null : { id: row.id, name: row.name, role: row.role };

/** The account with that id. */
export const accountWithId = async (
  dataSource: DataSource,
  id: string,
): Promise<SignedInPerson | null> =>
  accountOf(await dataSource.getRepository(PersonRow).findOneBy({ id }));

/** The owner's. */
export const ownerAccount = async (dataSource: DataSource): Promise<SignedInPerson | null> =>
  accountOf(await dataSource.getRepository(PersonRow).findOneBy({ here: true }));
