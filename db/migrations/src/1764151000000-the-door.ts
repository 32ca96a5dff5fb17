import type { MigrationInterface, QueryRunner } from 'typeorm';
import { guarded } from './guarded.js';

/** Every table of before, and the grants. */
const tables = [
  ...['install_state', 'keeper', 'credential', 'session', 'refused_attempt', 'line_grant'],
  ...['line', 'fish', 'spawn', 'spawn_event', 'spawn_count', 'spawn_loss', 'class_count'],
  ...['trait_definition', 'score_sheet', 'score_sheet_version', 'sheet_scoring', 'score'],
  ...['photo', 'genotype', 'pairing', 'record_history', 'share_base', 'phenotype'],
  ...['own_locus', 'own_locus_version', 'locus_setting', 'computation', 'care_entry'],
  ...['care_template', 'calendar_address', 'received_entry', 'water_reading', 'water_rule'],
  ...['import_run', 'past_import', 'past_import_record', 'backup_run', 'fish_act'],
];

/** Where a name alone told who did it. */
const signed = [
  { table: 'record_history', id: 'by_account_id', name: 'by_name' },
  { table: 'own_locus_version', id: 'by_account_id', name: 'by_name' },
  { table: 'computation', id: 'asked_by_account_id', name: 'asked_by' },
  { table: 'past_import', id: 'by_account_id', name: 'by_name' },
];

const accounts = [
  `ALTER TABLE "keeper" ADD "role" text`,
  `UPDATE "keeper" SET "role" = 'owner' WHERE "here"`,
  `ALTER TABLE "keeper" ADD CONSTRAINT "keeper_role" CHECK ("role" IN ('owner', 'guest') AND "here" = ("role" = 'owner') OR "role" IS NULL AND NOT "here")`,
  `CREATE TABLE "line_grant" (
    "account_id" uuid NOT NULL,
    "line_id" uuid NOT NULL,
    "granted_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    CONSTRAINT "PK_line_grant" PRIMARY KEY ("account_id", "line_id")
  )`,
  `ALTER TABLE "line_grant" ADD CONSTRAINT "line_grant_account" FOREIGN KEY ("account_id") REFERENCES "keeper"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "line_grant" ADD CONSTRAINT "line_grant_line" FOREIGN KEY ("line_id") REFERENCES "line"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
];

const functions = [
  // Who sees all: the owner, and work of the program's own.
  `CREATE OR REPLACE FUNCTION door_open() RETURNS boolean LANGUAGE sql STABLE PARALLEL SAFE AS $$
     SELECT coalesce(split_part(current_setting('linewright.actor', true), ':', 1) IN ('system', 'owner'), false)
   $$`,
  // For whom the connection works; null for the program itself.
  `CREATE OR REPLACE FUNCTION door_account() RETURNS uuid LANGUAGE sql STABLE PARALLEL SAFE AS $$
     SELECT nullif(split_part(current_setting('linewright.actor', true), ':', 2), '')::uuid
   $$`,
  // Lines that were granted to that account.
  `CREATE OR REPLACE FUNCTION door_lines() RETURNS uuid[] LANGUAGE sql STABLE PARALLEL SAFE AS $$
     SELECT coalesce(array_agg(line_id), '{}') FROM line_grant WHERE account_id = door_account()
   $$`,
];

/** In brackets with SELECT: asked once a statement, not once a row. */
const LINES = '((SELECT door_lines())::uuid[])';

const policies = [
  ...tables.flatMap(guarded),
  `CREATE POLICY "door_own" ON "keeper" FOR SELECT USING ("id" = (SELECT door_account()))`,
  // Whose records they are is no secret to whoever was let in.
  `CREATE POLICY "door_here" ON "keeper" FOR SELECT USING ("here" AND (SELECT door_account()) IS NOT NULL)`,
  `CREATE POLICY "door_own" ON "line_grant" FOR SELECT USING ("account_id" = (SELECT door_account()))`,
  `CREATE POLICY "door_granted" ON "line" FOR SELECT USING ("id" = ANY (${LINES}))`,
  `CREATE POLICY "door_granted" ON "fish" FOR SELECT USING ("line_id" = ANY (${LINES}))`,
];

const signatures = [
  ...signed.flatMap(({ table, id, name }) => [
    `ALTER TABLE "${table}" ADD "${id}" uuid`,
    // A name that a partner bears too says nothing of who it was.
    `UPDATE "${table}" t SET "${id}" = k.id FROM keeper k
       WHERE k.here AND t."${name}" = k.name AND (SELECT count(*) FROM keeper o WHERE o.name = k.name) = 1`,
    `ALTER TABLE "${table}" ALTER "${id}" SET DEFAULT door_account()`,
  ]),
  `ALTER TABLE "past_import" ADD "taken_back_by_account_id" uuid`,
  `UPDATE "past_import" t SET "taken_back_by_account_id" = k.id FROM keeper k
     WHERE k.here AND t.taken_back_by = k.name AND (SELECT count(*) FROM keeper o WHERE o.name = k.name) = 1`,
  `ALTER TABLE "backup_run" ADD "asked_by_account_id" uuid DEFAULT door_account()`,
];

/** Accounts with a role, who did what by account, and row-level security on every table. */
export class TheDoor1764151000000 implements MigrationInterface {
  readonly name = 'TheDoor1764151000000';

  async up(runner: QueryRunner): Promise<void> {
    // Deferred checks of rows that came before would bar a change of their tables.
    await runner.query('SET CONSTRAINTS ALL IMMEDIATE');
    for (const statement of [...functions.slice(0, 2), ...accounts, ...functions.slice(2)])
      await runner.query(statement);
    for (const statement of [...signatures, ...policies]) await runner.query(statement);
    await runner.query('SET CONSTRAINTS ALL DEFERRED');
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
