import type { MigrationInterface, QueryRunner } from 'typeorm';

const statements = [
  `CREATE TABLE "past_import" (
    "id" uuid NOT NULL,
    "keeper_id" uuid NOT NULL,
    "file_name" text,
    "by_name" text NOT NULL,
    "at" TIMESTAMP WITH TIME ZONE NOT NULL,
    "counts" jsonb NOT NULL,
    "taken_back_at" TIMESTAMP WITH TIME ZONE,
    "taken_back_by" text,
    "taken_back_reason" text,
    CONSTRAINT "PK_past_import" PRIMARY KEY ("id")
  )`,
  `CREATE INDEX "past_import_by_keeper" ON "past_import" ("keeper_id", "at")`,
  `CREATE TABLE "past_import_record" (
    "past_import_id" uuid NOT NULL,
    "record_id" uuid NOT NULL,
    "record_kind" text NOT NULL,
    CONSTRAINT "PK_past_import_record" PRIMARY KEY ("past_import_id", "record_id")
  )`,
  // Imports made before: all records of one were told in the history in one transaction, so at one moment.
  `CREATE TEMPORARY TABLE "earlier_import" ON COMMIT DROP AS
     SELECT gen_random_uuid() AS id, h.by_name, h.at,
       count(*) FILTER (WHERE record_kind = 'fish') AS fish,
       count(*) FILTER (WHERE record_kind = 'spawn') AS spawns,
       count(*) FILTER (WHERE record_kind = 'line') AS lines,
       count(*) FILTER (WHERE record_kind = 'score') AS scores,
       count(*) FILTER (WHERE record_kind = 'trait') AS traits
     FROM "record_history" h WHERE h.action = 'imported' GROUP BY h.by_name, h.at`,
  `INSERT INTO "past_import" ("id", "keeper_id", "by_name", "at", "counts")
     SELECT e.id, k.id, e.by_name, e.at, json_build_object(
       'fish', e.fish, 'spawns', e.spawns, 'lines', e.lines, 'scores', e.scores, 'traits', e.traits)
     FROM "earlier_import" e JOIN "keeper" k ON k.here`,
  `INSERT INTO "past_import_record" ("past_import_id", "record_id", "record_kind")
     SELECT DISTINCT i.id, h.record_id, h.record_kind
     FROM "past_import" i JOIN "record_history" h ON h.at = i.at AND h.by_name = i.by_name AND h.action = 'imported'`,
  `SET CONSTRAINTS ALL IMMEDIATE`,
  `SET CONSTRAINTS ALL DEFERRED`,
  `ALTER TABLE "past_import" ADD CONSTRAINT "past_import_keeper" FOREIGN KEY ("keeper_id") REFERENCES "keeper"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "past_import_record" ADD CONSTRAINT "past_import_record_of" FOREIGN KEY ("past_import_id") REFERENCES "past_import"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
];

/** Which pedigree files were taken in, and what each of them made. */
export class PastImports1764123000000 implements MigrationInterface {
  readonly name = 'PastImports1764123000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
