import type { MigrationInterface, QueryRunner } from 'typeorm';

const statements = [
  `CREATE TABLE "import_run" (
    "id" uuid NOT NULL,
    "keeper_id" uuid NOT NULL,
    "purpose" text NOT NULL,
    "file_name" text NOT NULL,
    "columns" jsonb NOT NULL,
    "body" bytea,
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    CONSTRAINT "PK_import_run" PRIMARY KEY ("id")
  )`,
  `CREATE INDEX "import_run_by_keeper" ON "import_run" ("keeper_id")`,
  `ALTER TABLE "import_run" ADD CONSTRAINT "import_run_keeper" FOREIGN KEY ("keeper_id") REFERENCES "keeper"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
];

/** Large pedigree files under way. */
export class ImportRuns1764079000000 implements MigrationInterface {
  readonly name = 'ImportRuns1764079000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
