import type { MigrationInterface, QueryRunner } from 'typeorm';

const statements = [
  `ALTER TABLE "fish_claim"
     ADD "revision" integer NOT NULL DEFAULT 1,
     ADD "updated_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
     ADD "withdrawn_at" TIMESTAMP WITH TIME ZONE,
     ADD "withdrawn_reason" text,
     ADD "applied" boolean NOT NULL DEFAULT false`,
  // The claimant writes the claim and its end, whoever recorded the tag the answer.
  `UPDATE "fish_claim" SET withdrawn_at = coalesce(answered_on::timestamptz, now()), withdrawn_reason = 'taken back',
     answer = NULL, answered_on = NULL, answer_word = NULL WHERE answer = 'taken_back'`,
  `UPDATE "fish_claim" SET applied = true WHERE answer = 'confirmed'`,
  `CREATE VIEW "standing_fish_claim" WITH (security_invoker = true) AS SELECT * FROM "fish_claim" WHERE withdrawn_at IS NULL`,
];

/** Claims of fish are records of their own, which go along with the line to the install of whoever recorded the tag. */
export class ClaimsBetweenInstalls1764270000000 implements MigrationInterface {
  readonly name = 'ClaimsBetweenInstalls1764270000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
