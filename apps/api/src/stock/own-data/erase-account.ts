import type { EntityManager } from 'typeorm';
import type { Leaving } from './erase-records.js';

/** Tables whose rows end with the account, which their `person_id` names. */
export const ofAccount: readonly string[] = [
  ...['credential', 'session', 'invitation', 'second_step', 'spare_code', 'passkey'],
  ...['passkey_challenge', 'program_token', 'calendar_address', 'received_entry', 'import_run'],
  ...['import_shape', 'saved_search'],
];

/** Of these, what stays with the records when they go to somebody else. */
const ofRecords: ReadonlySet<string> = new Set(['import_run', 'import_shape']);

/** Rows between them and others that end with either. */
const ofBoth: readonly (readonly [table: string, whose: string])[] = [
  [
    'line_grant',
    'account_id = $1 OR by_account_id = $1 AND line_id IN (SELECT line_id FROM kept_line WHERE account_id = $1)',
  ],
  ['club_request', 'from_id = $1 OR to_id = $1'],
  ['club_line', 'keeper_id = $1'],
];

/** Columns that name who did something, with the account beside it where there is one. */
const names: readonly (readonly [table: string, name: string, account: string | null])[] = [
  ['record_history', 'by_name', 'by_account_id'],
  ['past_import', 'by_name', 'by_account_id'],
  ['past_import', 'taken_back_by', 'taken_back_by_account_id'],
  ['line_purpose', 'by_name', 'by_account_id'],
  ['own_locus_version', 'by_name', 'by_account_id'],
  ['score', 'scorer', 'by_account_id'],
  ['sheet_scoring', 'scorer', 'by_account_id'],
  ['fish_act', 'by_name', null],
  ['fish_act', 'taken_back_by', null],
  ['scoring_draw', 'by_name', null],
  ['hand_over', 'to_name', null],
  ['computation', 'asked_by', 'asked_by_account_id'],
];

/** Ends the ways in of somebody, what their devices sent, what was shared with them and their install. */
export const eraseAccount = async (manager: EntityManager, { id }: Leaving): Promise<void> => {
  for (const table of ofAccount)
    await manager.query(`DELETE FROM "${table}" WHERE person_id = $1`, [id]);
  await manager.query(
    'UPDATE hand_over SET request_id = NULL WHERE request_id IN (SELECT id FROM club_request WHERE from_id = $1 OR to_id = $1)',
    [id],
  );
  for (const [table, whose] of ofBoth)
    await manager.query(`DELETE FROM "${table}" WHERE ${whose}`, [id]);
  const installs = (await manager.query(
    'SELECT install_id AS id FROM partner_install WHERE person_id = $1',
    [id],
  )) as { id: string }[];
  const ids = installs.map((install) => install.id);
  for (const table of ['line_exchange', 'partner_install', 'share_install'])
    await manager.query(`DELETE FROM "${table}" WHERE install_id = ANY ($1::uuid[])`, [ids]);
  await manager.query(
    `INSERT INTO erased_record (record_id) SELECT unnest($1::uuid[]) ON CONFLICT DO NOTHING`,
    [ids],
  );
};

/** Ends what they did as such: acts, imports, their rule for water; their records are others' by then or erased. */
export const eraseDoings = async (manager: EntityManager, { id }: Leaving): Promise<void> => {
  await manager.query(
    'DELETE FROM past_import_record WHERE past_import_id IN (SELECT id FROM past_import WHERE person_id = $1)',
    [id],
  );
  for (const table of ['past_import', 'fish_act', 'water_rule'])
    await manager.query(`DELETE FROM "${table}" WHERE person_id = $1`, [id]);
};

/**
 * Puts the pseudonym wherever their name stands as who did something; by name alone only where nobody else here bears it. Answers that
 * were worked out before are forgotten, since names may stand in them. In the caller's transaction.
 */
export const eraseName = async (
  manager: EntityManager,
  { id, name, pseudonym }: Leaving,
): Promise<void> => {
  const [other] = (await manager.query(
    'SELECT 1 FROM person WHERE id <> $1 AND lower(name) = lower($2) LIMIT 1',
    [id, name],
  )) as object[];
  const alone = other === undefined;
  for (const [table, column, account] of names) {
    const byName = `${column} = $2${account === null ? '' : ` AND ${account} IS NULL`}`;
    const which = [account === null ? 'false' : `${account} = $1`, alone ? byName : 'false'];
    await manager.query(
      `UPDATE "${table}" SET ${column} = $3
       WHERE (${which.join(' OR ')}) AND ${column} IS NOT NULL AND $1::uuid IS NOT NULL AND $2 <> ''`,
      [id, name, pseudonym],
    );
  }
  if (alone)
    await manager.query(
      `UPDATE fish_act SET what = replace(what, $1, $2) WHERE position($1 IN what) > 0`,
      [name, pseudonym],
    );
  await manager.query(
    `DELETE FROM computation WHERE kind NOT IN ('import', 'import_look') OR asked_by_account_id = $1`,
    [id],
  );
  await manager.query(
    `UPDATE person SET name = $2, role = NULL, here = false, erased_at = now() WHERE id = $1`,
    [id, pseudonym],
  );
  await manager.query(
    'UPDATE install_state SET pedigree_revision = pedigree_revision + 1 WHERE id = 1',
  );
};

/** A name that says nothing of anybody and is nobody's yet: the number of keepers who left before, and one more. */
export const pseudonymFor = async (manager: EntityManager): Promise<string> => {
  const rows = (await manager.query(
    `SELECT substr(name, 8)::int AS number FROM person WHERE name ~ '^Keeper [0-9]{1,6}$'`,
  )) as { number: number }[];
  return `Keeper ${rows.reduce((most, { number }) => Math.max(most, number), 0) + 1}`;
};

/** Columns that say by which account something was done or is to be done, and that go with the account when an install is handed on. */
export const accountColumns: readonly (readonly [table: string, column: string])[] = [
  ['record_history', 'by_account_id'],
  ['past_import', 'by_account_id'],
  ['past_import', 'taken_back_by_account_id'],
  ['line_purpose', 'by_account_id'],
  ['own_locus_version', 'by_account_id'],
  ['score', 'by_account_id'],
  ['sheet_scoring', 'by_account_id'],
  ['backup_run', 'asked_by_account_id'],
  ['line_grant', 'by_account_id'],
  ['club_line', 'by_account_id'],
  ['comment', 'person_id'],
  ['computation', 'asked_by_account_id'],
  ['pairing', 'maker_id'],
  ['photo', 'by_account_id'],
  ['show_result', 'by_account_id'],
];

/**
 * Hands the install of `owner` to `heir`, somebody of the household: the heir becomes the person whose the records are, under the
 * id that partners' installs know them by, and what the owner did stands under the id that was the heir's.
 *
 * @returns who leaves then: the owner under the other id
 */
export const swapPeople = async (
  manager: EntityManager,
  owner: Leaving,
  heir: { readonly id: string; readonly name: string },
): Promise<Leaving> => {
  for (const table of ofAccount.filter((one) => !ofRecords.has(one))) {
    await manager.query(`DELETE FROM "${table}" WHERE person_id = $1`, [owner.id]);
    await manager.query(`UPDATE "${table}" SET person_id = $1 WHERE person_id = $2`, [
      owner.id,
      heir.id,
    ]);
  }
  for (const [table, column] of accountColumns)
    await manager.query(
      `UPDATE "${table}" SET ${column} = CASE WHEN ${column} = $1 THEN $2::uuid ELSE $1::uuid END WHERE ${column} IN ($1, $2)`,
      [owner.id, heir.id],
    );
  await manager.query('UPDATE person SET name = $2 WHERE id = $1', [owner.id, heir.name]);
  await manager.query('UPDATE person SET name = $2 WHERE id = $1', [heir.id, owner.name]);
  return { ...owner, id: heir.id };
};

/** Those of the household who have a password: to one of them the install can be handed. */
export const heirsOf = (
  manager: EntityManager,
): Promise<{ id: string; name: string; here: boolean }[]> =>
  manager.query(
    `SELECT p.id, p.name, p.here FROM person p JOIN credential c ON c.person_id = p.id WHERE p.role = 'household' ORDER BY p.name`,
  );

/** How many others may sign in, or have an install that is paired with this one. */
export const othersHere = async (manager: EntityManager): Promise<number> => {
  const [row] = (await manager.query(
    `SELECT count(*)::int AS count FROM person p WHERE NOT p.here AND (p.role IS NOT NULL
       OR EXISTS (SELECT 1 FROM partner_install i WHERE i.person_id = p.id AND i.ended_at IS NULL))`,
  )) as { count: number }[];
  return row?.count ?? 0;
};
