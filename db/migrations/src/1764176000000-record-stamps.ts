import type { MigrationInterface, QueryRunner } from 'typeorm';
import { guarded } from './guarded.js';

const statements = [
  `CREATE TABLE "share_state" (
    "id" integer NOT NULL,
    "install_id" uuid,
    "changes" bigint NOT NULL DEFAULT 0,
    CONSTRAINT "PK_share_state" PRIMARY KEY ("id")
  )`,
  `CREATE TABLE "share_install" (
    "install_id" uuid NOT NULL,
    "name" text NOT NULL,
    CONSTRAINT "PK_share_install" PRIMARY KEY ("install_id")
  )`,
  `CREATE TABLE "record_stamp" (
    "record_id" uuid NOT NULL,
    "record_kind" text NOT NULL,
    "versions" jsonb NOT NULL,
    "seen" jsonb NOT NULL,
    "apart" text array NOT NULL DEFAULT '{}',
    CONSTRAINT "PK_record_stamp" PRIMARY KEY ("record_id")
  )`,
  // The few that wait for a decision.
  `CREATE INDEX "record_stamp_apart" ON "record_stamp" ("record_id") WHERE "apart" <> '{}'`,
  ...['share_state', 'share_install', 'record_stamp'].flatMap(guarded),
];

/** What is known of the versions of records that several installs hold. */
export class RecordStamps1764176000000 implements MigrationInterface {
  readonly name = 'RecordStamps1764176000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
