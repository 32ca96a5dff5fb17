import type { MigrationInterface, QueryRunner } from 'typeorm';

const statements = [
  `CREATE TABLE "water_reading" (
    "id" uuid NOT NULL,
    "revision" integer NOT NULL DEFAULT '1',
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "updated_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "withdrawn_at" TIMESTAMP WITH TIME ZONE,
    "withdrawn_reason" text,
    "keeper_id" uuid NOT NULL,
    "spawn_id" uuid,
    "vessel" text,
    "taken_at" TIMESTAMP WITH TIME ZONE NOT NULL,
    "total_ammonia" double precision,
    "ammonia_unit" text,
    "ph" double precision,
    "celsius" double precision,
    "nitrite" double precision,
    "nitrite_form" text,
    "nitrate" double precision,
    "nitrate_form" text,
    "kit" text,
    "note" text,
    CONSTRAINT "PK_water_reading" PRIMARY KEY ("id")
  )`,
  `CREATE INDEX "water_reading_by_spawn" ON "water_reading" ("spawn_id")`,
  `CREATE INDEX "water_reading_by_keeper" ON "water_reading" ("keeper_id", "taken_at")`,
  `CREATE TABLE "water_rule" (
    "keeper_id" uuid NOT NULL,
    "limit_value" double precision NOT NULL,
    "limit_unit" text NOT NULL,
    "trust_hours" integer NOT NULL,
    "source_total" double precision NOT NULL DEFAULT '0',
    "source_ph" double precision,
    "source_celsius" double precision,
    CONSTRAINT "PK_water_rule" PRIMARY KEY ("keeper_id")
  )`,
  `ALTER TABLE "water_reading" ADD CONSTRAINT "water_reading_keeper" FOREIGN KEY ("keeper_id") REFERENCES "keeper"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "water_reading" ADD CONSTRAINT "water_reading_spawn" FOREIGN KEY ("spawn_id") REFERENCES "spawn"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "water_rule" ADD CONSTRAINT "water_rule_keeper" FOREIGN KEY ("keeper_id") REFERENCES "keeper"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
];

export class Water1764073000000 implements MigrationInterface {
  readonly name = 'Water1764073000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE "water_rule"');
    await runner.query('DROP TABLE "water_reading"');
  }
}
