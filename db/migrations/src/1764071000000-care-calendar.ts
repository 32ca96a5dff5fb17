import type { MigrationInterface, QueryRunner } from 'typeorm';

const record = `
    "id" uuid NOT NULL,
    "revision" integer NOT NULL DEFAULT '1',
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "updated_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "withdrawn_at" TIMESTAMP WITH TIME ZONE,
    "withdrawn_reason" text,`;

const tables = [
  `CREATE TABLE "care_entry" (${record}
    "spawn_id" uuid NOT NULL,
    "step" text NOT NULL,
    "at" TIMESTAMP WITH TIME ZONE NOT NULL,
    "action" text NOT NULL,
    "note" text,
    CONSTRAINT "PK_care_entry" PRIMARY KEY ("id")
  )`,
  `CREATE INDEX "care_entry_by_spawn" ON "care_entry" ("spawn_id")`,
  `CREATE TABLE "care_template" (${record}
    "keeper_id" uuid NOT NULL,
    "line_id" uuid NOT NULL,
    "name" text NOT NULL,
    "steps" jsonb NOT NULL,
    CONSTRAINT "PK_care_template" PRIMARY KEY ("id")
  )`,
  `CREATE UNIQUE INDEX "care_template_in_force_once" ON "care_template" ("keeper_id", "line_id") WHERE withdrawn_at IS NULL`,
  `CREATE TABLE "calendar_address" (
    "keeper_id" uuid NOT NULL,
    "secret_hash" text NOT NULL,
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    CONSTRAINT "PK_calendar_address" PRIMARY KEY ("keeper_id")
  )`,
  `CREATE UNIQUE INDEX "calendar_address_secret_once" ON "calendar_address" ("secret_hash")`,
  `ALTER TABLE "care_entry" ADD CONSTRAINT "care_entry_spawn" FOREIGN KEY ("spawn_id") REFERENCES "spawn"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "care_template" ADD CONSTRAINT "care_template_keeper" FOREIGN KEY ("keeper_id") REFERENCES "keeper"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "care_template" ADD CONSTRAINT "care_template_line" FOREIGN KEY ("line_id") REFERENCES "line"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "calendar_address" ADD CONSTRAINT "calendar_address_keeper" FOREIGN KEY ("keeper_id") REFERENCES "keeper"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
];

/** Care that is no event of the spawn, calendars by line, and the secret addresses of calendars. */
export class CareCalendar1764071000000 implements MigrationInterface {
  readonly name = 'CareCalendar1764071000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of tables) await runner.query(statement);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from a migration: restore a backup instead.');
  }
}
