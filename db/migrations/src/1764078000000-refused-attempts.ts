import type { MigrationInterface, QueryRunner } from 'typeorm';

/** One table counts refused sign-ins and wrong calendar addresses alike. */
const statements = [
  `ALTER TABLE "refused_sign_in" RENAME TO "refused_attempt"`,
  `ALTER TABLE "refused_attempt" RENAME CONSTRAINT "PK_refused_sign_in" TO "PK_refused_attempt"`,
  `ALTER TABLE "refused_attempt" ADD "what" text NOT NULL DEFAULT 'sign-in'`,
  `ALTER TABLE "refused_attempt" ALTER COLUMN "what" DROP DEFAULT`,
  `DROP INDEX "refused_sign_in_by_address"`,
  `CREATE INDEX "refused_attempt_by_address" ON "refused_attempt" ("what", "address", "at")`,
];

const back = [
  `DELETE FROM "refused_attempt" WHERE "what" <> 'sign-in'`,
  `DROP INDEX "refused_attempt_by_address"`,
  `ALTER TABLE "refused_attempt" DROP COLUMN "what"`,
  `ALTER TABLE "refused_attempt" RENAME CONSTRAINT "PK_refused_attempt" TO "PK_refused_sign_in"`,
  `ALTER TABLE "refused_attempt" RENAME TO "refused_sign_in"`,
  `CREATE INDEX "refused_sign_in_by_address" ON "refused_sign_in" ("address", "at")`,
];

export class RefusedAttempts1764078000000 implements MigrationInterface {
  readonly name = 'RefusedAttempts1764078000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const statement of back) await runner.query(statement);
  }
}
