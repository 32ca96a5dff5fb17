import { type EntityManager, IsNull } from 'typeorm';
import type { AccountRole } from '../access/actor.js';
import type { Records } from './reads.js';
import { PartnerInstallRow } from './rows/partner-install.entity.js';
import { PersonRow } from './rows/person.entity.js';

export interface Person {
  readonly id: string;
  readonly name: string;
}

/** Everybody on record, the owner first, then by name. */
export const peopleByName = (manager: EntityManager): Promise<PersonRow[]> =>
  manager.find(PersonRow, { order: { here: 'DESC', name: 'ASC' } });

/** Ids of those whose install is paired with this one. */
export const pairedPeople = async (manager: EntityManager): Promise<string[]> => {
  const found = await manager.find(PartnerInstallRow, {
    ...{ select: { personId: true }, where: { endedAt: IsNull() } },
  });
  return found.map(({ personId }) => personId);
};

/** Who signs in under that name, whatever its capitals; people without an account are none. */
export const accountNamed = (manager: EntityManager, name: string): Promise<PersonRow | null> =>
  manager
    .createQueryBuilder(PersonRow, 'p')
    .where('p.role IS NOT NULL AND lower(p.name) = lower(:name)', { name: name.trim() })
    .getOne();

/** Somebody on record, as who asks for records. */
export interface AccountRow {
  readonly id: string;
  readonly name: string;
  readonly role: AccountRole | null;
  /** Whose install it is. */
  readonly ownerId: string | null;
  /** True where any keeper has lines of their own here. */
  readonly amongKeepers: boolean;
}

/** The person with that id; `null` for the owner. */
export const accountRow = async (
  records: Records,
  id: string | null,
): Promise<AccountRow | null> => {
  const [row] = (await records.query(
    `SELECT p.id, p.name, p.role, (SELECT o.id FROM person o WHERE o.here) AS "ownerId",
       EXISTS (SELECT 1 FROM kept_line) AS "amongKeepers"
     FROM person p WHERE ${id === null ? 'p.here' : 'p.id = $1'}`,
    id === null ? [] : [id],
  )) as AccountRow[];
  return row ?? null;
};

/**
 * Who may make pairs of a line, of whom whoever asks knows: whose line it is, the household where it keeps the line, and whom it was lent to breed with. Of
 * fish in no line: the owner and the household.
 */
export const makersOfLine = (records: Records, lineId: string | null): Promise<Person[]> =>
  records.query(
    `SELECT p.id, p.name FROM person p LEFT JOIN line l ON l.id = $1
     WHERE p.role IS NOT NULL AND (p.id = coalesce(l.person_id, door_self())
       OR p.role IN ('owner', 'household') AND (l.id IS NULL OR NOT EXISTS (SELECT 1 FROM kept_line k WHERE k.line_id = l.id))
       OR EXISTS (SELECT 1 FROM line_grant g WHERE g.account_id = p.id AND g.line_id = l.id AND g.level = 'breed'))
     ORDER BY p.here DESC, p.name, p.id`,
    [lineId],
  );

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

/** Whose this install is. */
export const personHere = async (records: Records): Promise<string | null> => {
  const [row] = (await records.query('SELECT id FROM person WHERE here')) as { id: string }[];
  return row?.id ?? null;
};

/** Whether somebody has an install of their own that is paired with this one. */
export const hasInstall = (manager: EntityManager, personId: string): Promise<boolean> =>
  manager.existsBy(PartnerInstallRow, { personId, endedAt: IsNull() });

/** What somebody on record is called; null where nobody whom the asker may see has that id. */
export const personName = async (records: Records, id: string): Promise<string | null> =>
  (await namesOfPeople(records, [id]))[0]?.name ?? null;
