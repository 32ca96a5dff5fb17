import type { MigrationInterface, QueryRunner } from 'typeorm';
import { guarded } from './guarded.js';

const statements = [
  `CREATE TABLE "partner_install" (
    "install_id" uuid NOT NULL,
    "person_id" uuid NOT NULL,
    "signing_key" text NOT NULL,
    "reading_key" text NOT NULL,
    "paired_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "compared_at" TIMESTAMP WITH TIME ZONE,
    "ended_at" TIMESTAMP WITH TIME ZONE,
    "ended_reason" text,
    "folder" text,
    "looked_at" TIMESTAMP WITH TIME ZONE,
    "problem" text,
    "strangers" text array NOT NULL DEFAULT '{}',
    CONSTRAINT "PK_partner_install" PRIMARY KEY ("install_id")
  )`,
  `CREATE INDEX "partner_install_by_person" ON "partner_install" ("person_id")`,
  `ALTER TABLE "partner_install" ADD CONSTRAINT "partner_install_person" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `CREATE TABLE "line_exchange" (
    "install_id" uuid NOT NULL,
    "line_id" uuid NOT NULL,
    "line_code" text,
    "sent_print" text,
    "sent_at" TIMESTAMP WITH TIME ZONE,
    "read_print" text,
    "read_at" TIMESTAMP WITH TIME ZONE,
    "taken" integer NOT NULL DEFAULT 0,
    "left_out" integer NOT NULL DEFAULT 0,
    "photos_waiting" integer NOT NULL DEFAULT 0,
    "problem" text,
    CONSTRAINT "PK_line_exchange" PRIMARY KEY ("install_id", "line_id")
  )`,
  `ALTER TABLE "line_exchange" ADD CONSTRAINT "line_exchange_install" FOREIGN KEY ("install_id") REFERENCES "partner_install"("install_id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  ...['partner_install', 'line_exchange'].flatMap(guarded),
];

/** Installs of partners, and what goes between them and this one. */
export class PartnerInstalls1764192000000 implements MigrationInterface {
  readonly name = 'PartnerInstalls1764192000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
