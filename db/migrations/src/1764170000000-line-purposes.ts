import type { MigrationInterface, QueryRunner } from 'typeorm';
import { guarded } from './guarded.js';

const statements = [
  `CREATE TABLE "line_purpose" (
    "line_id" uuid NOT NULL,
    "version" integer NOT NULL,
    "content" jsonb NOT NULL,
    "note" text,
    "by_name" text NOT NULL,
    "by_account_id" uuid DEFAULT door_account(),
    "at" TIMESTAMP WITH TIME ZONE NOT NULL,
    CONSTRAINT "PK_line_purpose" PRIMARY KEY ("line_id", "version"),
    CONSTRAINT "line_purpose_line" FOREIGN KEY ("line_id") REFERENCES "line"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED
  )`,
  ...guarded('line_purpose'),
  // Plans name the version that they were made for: what it said has to stay readable.
  `CREATE FUNCTION line_purpose_stays() RETURNS trigger LANGUAGE plpgsql AS $$
     BEGIN
       RAISE EXCEPTION 'A version of what a line is for is never changed: add a version.' USING ERRCODE = 'integrity_constraint_violation';
     END
   $$`,
  `CREATE TRIGGER line_purpose_stays BEFORE UPDATE ON "line_purpose"
     FOR EACH ROW EXECUTE FUNCTION line_purpose_stays()`,
];

/** What each line is for, in versions that are only added. */
export class LinePurposes1764170000000 implements MigrationInterface {
  readonly name = 'LinePurposes1764170000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
