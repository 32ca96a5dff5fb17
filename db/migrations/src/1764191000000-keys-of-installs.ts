import type { MigrationInterface, QueryRunner } from 'typeorm';

/** In each, what stood for a former part goes for all that came of it. */
const partsThatCame: Readonly<Record<string, Readonly<Record<string, readonly string[]>>>> = {
  fish: { disposition: ['dispositionReason', 'swimsWithId'] },
  pairing: { state: ['reason'] },
  spawn: { sireId: ['pairingId'], failed: ['failedReason'] },
  sheet_scoring: { sheetId: ['scorer'] },
};

const told = Object.entries(partsThatCame).flatMap(([kind, parts]) =>
  Object.entries(parts).flatMap(([former, names]) =>
    names.map(
      (name) => `UPDATE "record_stamp"
       SET versions = jsonb_set(versions, '{parts,${name}}', versions #> '{parts,${former}}')
       WHERE record_kind = '${kind}' AND versions -> 'parts' ? '${former}'`,
    ),
  ),
);

const statements = [
  `ALTER TABLE "share_state" ADD "signing_secret" text, ADD "reading_secret" text`,
  // The id of an install follows from its keys, so that nobody can sign in its name: this one becomes another, which counts from the start.
  `UPDATE "share_state" SET install_id = NULL, changes = 0`,
  ...told,
];

/** An install signs what it gives, and some fields of a record that were told as one are told one by one. */
export class KeysOfInstalls1764191000000 implements MigrationInterface {
  readonly name = 'KeysOfInstalls1764191000000';

  async up(runner: QueryRunner): Promise<void> {
    // Deferred checks of rows that came before would bar a change of their tables.
    await runner.query('SET CONSTRAINTS ALL IMMEDIATE');
    const [{ actor }] = (await runner.query(
      `SELECT coalesce(current_setting('linewright.actor', true), '') AS actor`,
    )) as [{ actor: string }];
    await runner.query(`SELECT set_config('linewright.actor', 'system', true)`);
    for (const statement of statements) await runner.query(statement);
    await runner.query(`SELECT set_config('linewright.actor', $1, true)`, [actor]);
    await runner.query('SET CONSTRAINTS ALL DEFERRED');
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
