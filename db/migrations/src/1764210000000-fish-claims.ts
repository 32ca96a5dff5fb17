import type { MigrationInterface, QueryRunner } from 'typeorm';
import { guarded } from './guarded.js';

const statements = [
  `CREATE TABLE "fish_claim" (
    "id" uuid NOT NULL,
    "fish_id" uuid NOT NULL,
    "tag" text NOT NULL,
    "as_fish_id" uuid,
    "as_tag" text,
    "by_id" uuid NOT NULL,
    "to_id" uuid NOT NULL,
    "word" text,
    "claimed_on" date NOT NULL,
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "answer" text,
    "answered_on" date,
    "answer_word" text,
    CONSTRAINT "PK_fish_claim" PRIMARY KEY ("id")
  )`,
  ...[
    ['fish', 'fish_id', 'fish'],
    ['as', 'as_fish_id', 'fish'],
    ['by', 'by_id', 'person'],
    ['to', 'to_id', 'person'],
  ].map(
    ([name, column, target]) =>
      `ALTER TABLE "fish_claim" ADD CONSTRAINT "fish_claim_${name}" FOREIGN KEY ("${column}") REFERENCES "${target}"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  ),
  ...['fish', 'by', 'to'].map(
    (name) => `CREATE INDEX "fish_claim_by_${name}" ON "fish_claim" ("${name}_id")`,
  ),
  ...guarded('fish_claim'),
  `CREATE POLICY "lent" ON "fish_claim" FOR SELECT USING ((SELECT door_account()) IN (by_id, to_id))`,
  // Whoever recorded the tag learns who claims it.
  `CREATE POLICY "claimed" ON "person" FOR SELECT USING (id IN (SELECT by_id FROM fish_claim WHERE to_id = (SELECT door_account())))`,
];

/** Fish of which somebody else recorded only the tag, claimed by those whose they are. */
export class FishClaims1764210000000 implements MigrationInterface {
  readonly name = 'FishClaims1764210000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
