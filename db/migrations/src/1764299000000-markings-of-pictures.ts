import type { MigrationInterface, QueryRunner } from 'typeorm';

const anew = (name: string, meaning: string): string[] => [
  `DROP VIEW "${name}"`,
  `CREATE VIEW "${name}" WITH (security_invoker = true) AS ${meaning}`,
];

const statements = [
  `ALTER TABLE "score" ADD "marking" jsonb`,
  `CREATE INDEX "score_by_marked_photo" ON "score" (("marking" ->> 'photoId')) WHERE "marking" IS NOT NULL`,
  ...anew('standing_score', `SELECT * FROM "score" WHERE withdrawn_at IS NULL`),
  ...anew(
    'score_in_force',
    `SELECT * FROM score s WHERE s.withdrawn_at IS NULL
       AND NOT EXISTS (SELECT 1 FROM score c WHERE c.corrects_id = s.id AND c.withdrawn_at IS NULL)`,
  ),
];

/** A score measured on a picture keeps the points that were marked there. */
export class MarkingsOfPictures1764299000000 implements MigrationInterface {
  readonly name = 'MarkingsOfPictures1764299000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
