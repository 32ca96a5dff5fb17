import type { MigrationInterface, QueryRunner } from 'typeorm';
import { guarded } from './guarded.js';

const table = [
  `CREATE TABLE "show_result" (
    "id" uuid NOT NULL,
    "revision" integer NOT NULL DEFAULT '1',
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "updated_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "withdrawn_at" TIMESTAMP WITH TIME ZONE,
    "withdrawn_reason" text,
    "fish_id" uuid NOT NULL,
    "by_account_id" uuid DEFAULT door_account(),
    "show" text NOT NULL,
    "on_date" date NOT NULL,
    "class" text NOT NULL,
    "placing" integer,
    "points" double precision,
    "note" text,
    CONSTRAINT "show_result_placing" CHECK ("placing" > 0),
    CONSTRAINT "PK_show_result" PRIMARY KEY ("id")
  )`,
  `ALTER TABLE "show_result" ADD CONSTRAINT "show_result_fish" FOREIGN KEY ("fish_id") REFERENCES "fish"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `CREATE INDEX "show_result_by_fish" ON "show_result" ("fish_id")`,
  `CREATE VIEW "standing_show_result" WITH (security_invoker = true) AS SELECT * FROM "show_result" WHERE withdrawn_at IS NULL`,
  ...guarded('show_result'),
];

/** In brackets with SELECT: asked once a statement, not once a row. */
const KEPT = '((SELECT door_kept())::uuid[])';
const SCORED = `((SELECT door_lines_with('scores'))::uuid[])`;
const HANDED = `((SELECT door_fish('scores'))::uuid[])`;
const keptFish = `fish_id IN (SELECT id FROM fish WHERE line_id = ANY (${KEPT}))`;
/** Of a keeper's fish that was handed to the owner: what the keeper noted where scores were to go along, and what others noted. */
const APART = `(SELECT door_alone()) OR EXISTS (SELECT 1 FROM fish o WHERE o.id = "show_result".fish_id)
  AND ("show_result".by_account_id IS NULL OR "show_result".by_account_id NOT IN (SELECT account_id FROM kept_line)
    OR "show_result".fish_id = ANY (${HANDED})
    OR EXISTS (SELECT 1 FROM fish o WHERE o.id = "show_result".fish_id AND (o.line_id IS NULL OR o.line_id <> ALL ((SELECT door_kept_apart())::uuid[]))))`;

const policies = [
  `CREATE POLICY "lent" ON "show_result" FOR SELECT USING (fish_id IN (SELECT id FROM fish WHERE line_id = ANY (${SCORED})))`,
  `CREATE POLICY "handed" ON "show_result" FOR SELECT USING (fish_id = ANY (${HANDED}))`,
  `CREATE POLICY "kept_to_add" ON "show_result" FOR INSERT WITH CHECK (${keptFish})`,
  `CREATE POLICY "kept_to_change" ON "show_result" FOR UPDATE USING (${keptFish}) WITH CHECK (${keptFish})`,
  `CREATE POLICY "kept_apart" ON "show_result" AS RESTRICTIVE USING (${APART}) WITH CHECK (${APART})`,
];

/** What fish won at shows, in the keeper's own classes; lent with the scores of a line. */
export class ShowResults1764302000000 implements MigrationInterface {
  readonly name = 'ShowResults1764302000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of [...table, ...policies]) await runner.query(statement);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
