import type { EntityManager } from 'typeorm';
import type { Records } from './reads.js';
import { PersonRow } from './rows/person.entity.js';

export interface Person {
  readonly id: string;
  readonly name: string;
}

/** Everybody on record, the owner first, then by name. */
export const peopleByName = (manager: EntityManager): Promise<PersonRow[]> =>
  manager.find(PersonRow, { order: { here: 'DESC', name: 'ASC' } });

/** Who signs in under that name, whatever its capitals; people without an account are none. */
export const accountNamed = (manager: EntityManager, name: string): Promise<PersonRow | null> =>
  manager
    .createQueryBuilder(PersonRow, 'p')
    .where('p.role IS NOT NULL AND lower(p.name) = lower(:name)', { name: name.trim() })
    .getOne();

export const isOnRecord = (manager: EntityManager, id: string): Promise<boolean> =>
  manager.existsBy(PersonRow, { id });

export const anybody = (manager: EntityManager): Promise<boolean> =>
  manager.existsBy(PersonRow, {});

/** Names of people, by id. */
export const namesOfPeople = (records: Records, ids: readonly string[]): Promise<Person[]> =>
  records.query('SELECT id, name FROM person WHERE id = ANY($1::uuid[]) ORDER BY id', [ids]);

/** Notes people whom a partner's records name; those on record already stay as they are. */
export const meetPeople = async (records: Records, people: readonly Person[]): Promise<void> => {
  await records.query(
    `INSERT INTO person (id, name, here)
     SELECT r.id, r.name, false FROM json_to_recordset($1::json) AS r(id uuid, name text) ON CONFLICT (id) DO NOTHING`,
    [JSON.stringify(people)],
  );
};
