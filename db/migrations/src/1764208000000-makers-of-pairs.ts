import type { MigrationInterface, QueryRunner } from 'typeorm';

const ACCOUNT = '(SELECT door_account())';
const bred = `SELECT id FROM fish WHERE line_id = ANY ((SELECT door_lines_with('breed'))::uuid[])`;
/** A pair that is theirs to make, as long as they may breed with both fish. */
const theirs = `maker_id = ${ACCOUNT} AND sire_id IN (${bred}) AND dam_id IN (${bred})`;

const statements = [
  `ALTER TABLE "pairing" ADD "maker_id" uuid`,
  `ALTER TABLE "pairing" ADD CONSTRAINT "pairing_maker" FOREIGN KEY ("maker_id") REFERENCES "person"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  // Views list the columns that their table has.
  `DROP VIEW "standing_pairing"`,
  `CREATE VIEW "standing_pairing" WITH (security_invoker = true) AS SELECT * FROM "pairing" WHERE withdrawn_at IS NULL`,
  `CREATE POLICY "made_to_change" ON "pairing" FOR UPDATE USING (${theirs}) WITH CHECK (${theirs})`,
];

/** Who makes a planned pair: one round is made in two fish rooms. */
export class MakersOfPairs1764208000000 implements MigrationInterface {
  readonly name = 'MakersOfPairs1764208000000';

  async up(runner: QueryRunner): Promise<void> {
    // Deferred checks of rows that came before would bar a change of their tables.
    await runner.query('SET CONSTRAINTS ALL IMMEDIATE');
    for (const statement of statements) await runner.query(statement);
    await runner.query('SET CONSTRAINTS ALL DEFERRED');
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
