import type { MigrationInterface, QueryRunner } from 'typeorm';

const statements = [
  `ALTER TABLE "trait_model" ADD COLUMN "beside_trait_ids" uuid[] NOT NULL DEFAULT '{}'`,
  `DROP VIEW "standing_trait_model"`,
  `CREATE VIEW "standing_trait_model" WITH (security_invoker = true) AS SELECT * FROM "trait_model" WHERE withdrawn_at IS NULL`,
];

/** Own traits that scores of a trait are corrected for. */
export class BesideTraits1764175000000 implements MigrationInterface {
  readonly name = 'BesideTraits1764175000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
