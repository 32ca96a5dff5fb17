import type { MigrationInterface, QueryRunner } from 'typeorm';

const statements = [
  `ALTER TABLE "hand_over" ADD "request_id" uuid`,
  `ALTER TABLE "hand_over" ADD CONSTRAINT "hand_over_request" FOREIGN KEY ("request_id") REFERENCES "club_request"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `CREATE INDEX "hand_over_by_request" ON "hand_over" ("request_id")`,
  // Views list the columns that their table has.
  `DROP VIEW "standing_hand_over"`,
  `CREATE VIEW "standing_hand_over" WITH (security_invoker = true) AS SELECT * FROM "hand_over" WHERE withdrawn_at IS NULL`,
];

/** Which request of the club a hand-over answers. */
export class AnsweredRequests1764220000000 implements MigrationInterface {
  readonly name = 'AnsweredRequests1764220000000';

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
