import type { MigrationInterface, QueryRunner } from 'typeorm';
import { guarded } from './guarded.js';

const statements = [
  `ALTER TABLE "person" ADD "erased_at" TIMESTAMP WITH TIME ZONE`,
  `CREATE TABLE "erased_record" (
    "record_id" uuid NOT NULL,
    "erased_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    CONSTRAINT "PK_erased_record" PRIMARY KEY ("record_id")
  )`,
  ...guarded('erased_record'),
  // What it says stays readable; who said it may be taken away.
  `CREATE OR REPLACE FUNCTION line_purpose_stays() RETURNS trigger LANGUAGE plpgsql AS $$
     BEGIN
       IF (NEW.line_id, NEW.version, NEW.content, NEW.note, NEW.at) IS DISTINCT FROM (OLD.line_id, OLD.version, OLD.content, OLD.note, OLD.at) THEN
         RAISE EXCEPTION 'A version of what a line is for is never changed: add a version.' USING ERRCODE = 'integrity_constraint_violation';
       END IF;
       RETURN NEW;
     END
   $$`,
];

/** People whose data were erased, and the ids of their records, so that no file brings back what went. */
export class OwnData1764195000000 implements MigrationInterface {
  readonly name = 'OwnData1764195000000';

  async up(runner: QueryRunner): Promise<void> {
    // Deferred checks of rows that came before would bar a change of their tables.
    await runner.query('SET CONSTRAINTS ALL IMMEDIATE');
    for (const statement of statements) await runner.query(statement);
    await runner.query('SET CONSTRAINTS ALL DEFERRED');
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
