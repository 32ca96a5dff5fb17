import type { MigrationInterface, QueryRunner } from 'typeorm';
import { guarded } from './guarded.js';

const theirs = `person_id = (SELECT door_account())`;
/** What somebody looks for is theirs alone, in the household too. */
const alone = `(SELECT door_program()) OR ${theirs}`;

const statements = [
  `CREATE TABLE "saved_search" (
    "id" uuid NOT NULL,
    "person_id" uuid NOT NULL,
    "name" text NOT NULL,
    "filter" text NOT NULL,
    "at" TIMESTAMP WITH TIME ZONE NOT NULL,
    CONSTRAINT "saved_search_name" UNIQUE ("person_id", "name"),
    CONSTRAINT "PK_saved_search" PRIMARY KEY ("id")
  )`,
  `ALTER TABLE "saved_search" ADD CONSTRAINT "saved_search_person" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  ...guarded('saved_search'),
  `CREATE POLICY "own" ON "saved_search" USING (${theirs}) WITH CHECK (${theirs})`,
  `CREATE POLICY "own_alone" ON "saved_search" AS RESTRICTIVE USING (${alone}) WITH CHECK (${alone})`,
];

/** Searches of the list of fish under a name of somebody's own. */
export class SavedSearches1764300000000 implements MigrationInterface {
  readonly name = 'SavedSearches1764300000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
