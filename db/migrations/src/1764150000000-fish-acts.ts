import type { MigrationInterface, QueryRunner } from 'typeorm';

const statements = [
  `CREATE TABLE "fish_act" (
    "id" uuid NOT NULL,
    "keeper_id" uuid NOT NULL,
    "what" text NOT NULL,
    "fish_count" integer NOT NULL,
    "by_name" text NOT NULL,
    "at" TIMESTAMP WITH TIME ZONE NOT NULL,
    "taken_back_at" TIMESTAMP WITH TIME ZONE,
    "taken_back_by" text,
    CONSTRAINT "PK_fish_act" PRIMARY KEY ("id"),
    CONSTRAINT "fish_act_keeper" FOREIGN KEY ("keeper_id") REFERENCES "keeper"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED
  )`,
  `CREATE INDEX "fish_act_by_keeper" ON "fish_act" ("keeper_id", "at")`,
  `ALTER TABLE "record_history" ADD COLUMN "act_id" uuid`,
  `CREATE INDEX "record_history_by_act" ON "record_history" ("act_id") WHERE act_id IS NOT NULL`,
];

/** Acts for several fish, and which changes belong to each. */
export class FishActs1764150000000 implements MigrationInterface {
  readonly name = 'FishActs1764150000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
