import type { MigrationInterface, QueryRunner } from 'typeorm';

const statements = [
  `ALTER TABLE "install_state" ADD "program_version" text`,
  `CREATE TABLE "backup_run" (
    "id" uuid NOT NULL,
    "kind" text NOT NULL,
    "state" text NOT NULL DEFAULT 'running',
    "folder" text NOT NULL,
    "file_name" text,
    "bytes" bigint,
    "photos_missing" integer NOT NULL DEFAULT '0',
    "message" text,
    "started_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "ended_at" TIMESTAMP WITH TIME ZONE,
    CONSTRAINT "PK_backup_run" PRIMARY KEY ("id")
  )`,
  `CREATE INDEX "backup_run_by_start" ON "backup_run" ("started_at")`,
];

/** Backups made and failed, and the version of the program that last opened the database. */
export class Backups1764111000000 implements MigrationInterface {
  readonly name = 'Backups1764111000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE "backup_run"');
    await runner.query('ALTER TABLE "install_state" DROP COLUMN "program_version"');
  }
}
