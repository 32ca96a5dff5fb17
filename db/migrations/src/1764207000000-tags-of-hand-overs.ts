import type { MigrationInterface, QueryRunner } from 'typeorm';

const statements = [
  `DROP VIEW "standing_hand_over"`,
  `ALTER TABLE "hand_over" ADD "new_tag" text`,
  `CREATE VIEW "standing_hand_over" WITH (security_invoker = true) AS SELECT * FROM "hand_over" WHERE withdrawn_at IS NULL`,
];

/** The tag that a receiver at another install gives a fish: it goes back with the answer. */
export class TagsOfHandOvers1764207000000 implements MigrationInterface {
  readonly name = 'TagsOfHandOvers1764207000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
