import type { MigrationInterface, QueryRunner } from 'typeorm';
import { guarded } from './guarded.js';

/** In brackets with SELECT: asked once a statement, not once a row. */
const ACCOUNT = '(SELECT door_account())';
const KEPT = '((SELECT door_kept())::uuid[])';
const keptFish = `SELECT id FROM fish WHERE line_id = ANY (${KEPT})`;
const keptSpawns = `SELECT id FROM spawn WHERE line_id = ANY (${KEPT})`;

const tables = [
  `ALTER TABLE "person" DROP CONSTRAINT "person_role"`,
  `ALTER TABLE "person" ADD CONSTRAINT "person_role" CHECK ("role" IN ('owner', 'household', 'partner', 'keeper') AND "here" = ("role" = 'owner') OR "role" IS NULL AND NOT "here")`,
  `CREATE TABLE "kept_line" (
    "line_id" uuid NOT NULL,
    "account_id" uuid NOT NULL,
    CONSTRAINT "PK_kept_line" PRIMARY KEY ("line_id")
  )`,
  `CREATE INDEX "kept_line_by_account" ON "kept_line" ("account_id")`,
  `ALTER TABLE "kept_line" ADD CONSTRAINT "kept_line_line" FOREIGN KEY ("line_id") REFERENCES "line"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "kept_line" ADD CONSTRAINT "kept_line_account" FOREIGN KEY ("account_id") REFERENCES "person"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "line_grant" ADD "by_account_id" uuid DEFAULT door_account()`,
  ...guarded('kept_line'),
];

const functions = [
  `CREATE OR REPLACE FUNCTION door_program() RETURNS boolean LANGUAGE sql STABLE PARALLEL SAFE AS $$
     SELECT coalesce(current_setting('linewright.actor', true) = 'system', false)
   $$`,
  `CREATE OR REPLACE FUNCTION door_keeps() RETURNS boolean LANGUAGE sql STABLE PARALLEL SAFE AS $$
     SELECT coalesce(split_part(current_setting('linewright.actor', true), ':', 1) = 'keeper', false)
   $$`,
  // Whose records are kept: those of the household keep the owner's.
  `CREATE OR REPLACE FUNCTION door_self() RETURNS uuid LANGUAGE sql STABLE PARALLEL SAFE AS $$
     SELECT CASE split_part(current_setting('linewright.actor', true), ':', 1)
       WHEN 'household' THEN (SELECT id FROM person WHERE here) ELSE door_account() END
   $$`,
  // Lines of one's own, on the server of somebody else.
  `CREATE OR REPLACE FUNCTION door_kept() RETURNS uuid[] LANGUAGE sql STABLE PARALLEL SAFE AS $$
     SELECT coalesce(array_agg(line_id), '{}') FROM kept_line WHERE account_id = door_account()
   $$`,
  // Lines of keepers, which the owner of the install and the household do not see.
  `CREATE OR REPLACE FUNCTION door_kept_apart() RETURNS uuid[] LANGUAGE sql STABLE PARALLEL SAFE AS $$
     SELECT CASE WHEN split_part(current_setting('linewright.actor', true), ':', 1) IN ('owner', 'household')
       THEN coalesce((SELECT array_agg(line_id) FROM kept_line), '{}') ELSE '{}' END
   $$`,
  `CREATE OR REPLACE FUNCTION door_alone() RETURNS boolean LANGUAGE sql STABLE PARALLEL SAFE AS $$
     SELECT cardinality(door_kept_apart()) = 0
   $$`,
  // In whose tanks a fish is "here": the keeper's own for a keeper, the owner's for everybody else.
  `CREATE OR REPLACE FUNCTION door_here() RETURNS uuid LANGUAGE sql STABLE PARALLEL SAFE AS $$
     SELECT CASE WHEN door_keeps() THEN door_account() ELSE (SELECT id FROM person WHERE here) END
   $$`,
  // What is one's own is seen like what was granted, and every part of it.
  `CREATE OR REPLACE FUNCTION door_lines() RETURNS uuid[] LANGUAGE sql STABLE PARALLEL SAFE AS $$
     SELECT (SELECT coalesce(array_agg(line_id), '{}') FROM line_grant WHERE account_id = door_account()) || door_kept()
   $$`,
  `CREATE OR REPLACE FUNCTION door_lines_with(part text) RETURNS uuid[] LANGUAGE sql STABLE PARALLEL SAFE AS $$
     SELECT (SELECT coalesce(array_agg(line_id), '{}') FROM line_grant WHERE account_id = door_account()
       AND CASE part WHEN 'scores' THEN scores WHEN 'photos' THEN photos WHEN 'notes' THEN notes
         WHEN 'water' THEN water WHEN 'place' THEN place
         WHEN 'score' THEN level IN ('score', 'breed') WHEN 'breed' THEN level = 'breed' ELSE false END) || door_kept()
   $$`,
  // A line that a keeper records is theirs; who else may see it, they say.
  `CREATE OR REPLACE FUNCTION keep_new_line() RETURNS trigger LANGUAGE plpgsql AS $$
   DECLARE actor text := coalesce(current_setting('linewright.actor', true), '');
   BEGIN
     IF split_part(actor, ':', 1) <> 'keeper' THEN RETURN NULL; END IF;
     PERFORM set_config('linewright.actor', 'system', true);
     INSERT INTO kept_line (line_id, account_id) VALUES (NEW.id, NEW.person_id);
     PERFORM set_config('linewright.actor', actor, true);
     RETURN NULL;
   END $$`,
  `CREATE TRIGGER "line_is_kept" AFTER INSERT ON "line" FOR EACH ROW EXECUTE FUNCTION keep_new_line()`,
];

/** Their names come behind that of the owner's policy, which is asked first. */
const mayRead = (table: string, which: string, name = 'kept'): string =>
  `CREATE POLICY "${name}" ON "${table}" FOR SELECT USING (${which})`;
const mayWrite = (table: string, which: string): string[] => [
  `CREATE POLICY "kept_to_add" ON "${table}" FOR INSERT WITH CHECK (${which})`,
  `CREATE POLICY "kept_to_change" ON "${table}" FOR UPDATE USING (${which}) WITH CHECK (${which})`,
];
const mayAll = (table: string, which: string): string =>
  `CREATE POLICY "kept" ON "${table}" USING (${which}) WITH CHECK (${which})`;

const byLine = ['line_purpose', 'line_route', 'round', 'care_template', 'locus_setting'];
const byFish = ['genotype', 'phenotype', 'score', 'sheet_scoring'];
const bySpawn = ['spawn_event', 'spawn_count', 'spawn_loss', 'class_count', 'care_record'];
const byPerson = ['fish_act', 'import_run', 'past_import'];

/** Of their own lines keepers read and write all. */
const own = [
  // For whoever sees all these are not asked: they would come round to the functions that ask for them.
  mayRead(
    'kept_line',
    `CASE WHEN (SELECT door_open()) THEN false ELSE account_id = ${ACCOUNT} OR line_id IN (SELECT line_id FROM line_grant) END`,
  ),
  mayRead(
    'person',
    `CASE WHEN (SELECT door_open()) THEN false
       ELSE id IN (SELECT account_id FROM kept_line) OR id IN (SELECT account_id FROM line_grant) END`,
  ),
  mayRead('line_grant', `by_account_id = ${ACCOUNT}`),
  ...mayWrite('line_grant', `by_account_id = ${ACCOUNT} AND line_id = ANY (${KEPT})`),
  `CREATE POLICY "kept_to_end" ON "line_grant" FOR DELETE USING (line_id = ANY (${KEPT}))`,
  mayRead('line', `person_id = ${ACCOUNT} AND (SELECT door_keeps())`),
  `CREATE POLICY "kept_to_add" ON "line" FOR INSERT WITH CHECK (person_id = ${ACCOUNT} AND (SELECT door_keeps()))`,
  `CREATE POLICY "kept_to_change" ON "line" FOR UPDATE USING (id = ANY (${KEPT})) WITH CHECK (id = ANY (${KEPT}))`,
  ...['fish', 'spawn'].flatMap((table) => mayWrite(table, `line_id = ANY (${KEPT})`)),
  ...byLine.map((table) => mayAll(table, `line_id = ANY (${KEPT})`)),
  ...byFish.flatMap((table) => mayWrite(table, `fish_id IN (${keptFish})`)),
  ...bySpawn.flatMap((table) => mayWrite(table, `spawn_id IN (${keptSpawns})`)),
  mayAll('scoring_draw', `spawn_id IN (${keptSpawns})`),
  mayAll(
    'water_reading',
    `spawn_id IN (${keptSpawns}) OR spawn_id IS NULL AND person_id = ${ACCOUNT} AND (SELECT door_keeps())`,
  ),
  ...mayWrite('photo', `fish_id IN (${keptFish}) OR spawn_id IN (${keptSpawns})`),
  ...mayWrite('pairing', `sire_id IN (${keptFish}) AND dam_id IN (${keptFish})`),
  mayAll('round_pair', `round_id IN (SELECT id FROM round WHERE line_id = ANY (${KEPT}))`),
  ...byPerson.map((table) => mayAll(table, `person_id = ${ACCOUNT} AND (SELECT door_keeps())`)),
  mayAll('past_import_record', `past_import_id IN (SELECT id FROM past_import)`),
];

/** What the owner and the household do not see although they see all else; without keepers nothing is asked of a row. */
const apart = (table: string, which: string): string => {
  const may = `(SELECT door_alone()) OR ${which}`;
  return `CREATE POLICY "kept_apart" ON "${table}" AS RESTRICTIVE USING (${may}) WITH CHECK (${may})`;
};
const notApart = (line: string): string => `${line} <> ALL ((SELECT door_kept_apart())::uuid[])`;
const seen = (table: string, id: string): string =>
  `EXISTS (SELECT 1 FROM ${table} o WHERE o.id = ${id})`;
const seenOrNone = (table: string, id: string): string => `(${id} IS NULL OR ${seen(table, id)})`;
const notKeepers = (person: string): string =>
  `${person} IS NULL OR ${person} NOT IN (SELECT account_id FROM kept_line)`;

const historyOf = [
  ...['line', 'fish', 'spawn', 'pairing', 'photo', 'water_reading', ...byFish, ...bySpawn],
  ...['round', 'line_route', 'locus_setting', 'care_template'],
];

const hidden = [
  apart('line', notApart('"line".id')),
  // Fish that a keeper handed to whoever asks are seen with the line hidden.
  apart(
    'fish',
    `"fish".line_id IS NULL OR ${notApart('"fish".line_id')} OR "fish".id = ANY ((SELECT door_fish('all'))::uuid[])`,
  ),
  apart(
    'hand_over',
    `"hand_over".line_id IS NULL OR ${notApart('"hand_over".line_id')} OR ${ACCOUNT} IN ("hand_over".from_id, "hand_over".to_id)`,
  ),
  ...['line_grant', 'spawn', ...byLine].map((table) =>
    apart(table, `"${table}".line_id IS NULL OR ${notApart(`"${table}".line_id`)}`),
  ),
  ...byFish.map((table) => apart(table, seen('fish', `"${table}".fish_id`))),
  ...[...bySpawn, 'scoring_draw'].map((table) =>
    apart(table, seen('spawn', `"${table}".spawn_id`)),
  ),
  apart(
    'water_reading',
    `CASE WHEN "water_reading".spawn_id IS NULL THEN ${notKeepers('"water_reading".person_id')}
       ELSE ${seen('spawn', '"water_reading".spawn_id')} END`,
  ),
  apart(
    'photo',
    `${seenOrNone('fish', '"photo".fish_id')} AND ${seenOrNone('spawn', '"photo".spawn_id')}`,
  ),
  apart('pairing', `${seen('fish', '"pairing".sire_id')} AND ${seen('fish', '"pairing".dam_id')}`),
  apart('round_pair', seen('round', '"round_pair".round_id')),
  ...[...byPerson, 'received_entry'].map((table) =>
    apart(table, notKeepers(`"${table}".person_id`)),
  ),
  apart('past_import_record', seen('past_import', '"past_import_record".past_import_id')),
  apart('computation', notKeepers('"computation".partner_id')),
  // What a keeper did with a record that the owner sees is told to the owner as well.
  apart(
    'record_history',
    [
      notKeepers('"record_history".by_account_id'),
      ...historyOf.map((table) => seen(table, '"record_history".record_id')),
    ].join(' OR '),
  ),
];

/** Keepers: accounts with lines of their own on one server, which nobody else sees unless they say so. */
export class Keepers1764205000000 implements MigrationInterface {
  readonly name = 'Keepers1764205000000';

  async up(runner: QueryRunner): Promise<void> {
    // Deferred checks of rows that came before would bar a change of their tables.
    await runner.query('SET CONSTRAINTS ALL IMMEDIATE');
    for (const statement of [...tables, ...functions, ...own, ...hidden])
      await runner.query(statement);
    await runner.query('SET CONSTRAINTS ALL DEFERRED');
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
