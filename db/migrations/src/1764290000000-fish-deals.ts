import type { MigrationInterface, QueryRunner } from 'typeorm';
import { guarded } from './guarded.js';

const table = [
  `CREATE TABLE "fish_deal" (
    "id" uuid NOT NULL,
    "revision" integer NOT NULL DEFAULT '1',
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "updated_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "withdrawn_at" TIMESTAMP WITH TIME ZONE,
    "withdrawn_reason" text,
    "fish_id" uuid NOT NULL,
    "person_id" uuid NOT NULL,
    "kind" text NOT NULL,
    "on_date" date NOT NULL,
    "amount" bigint,
    "currency" text,
    "with_whom" text,
    "note" text,
    CONSTRAINT "fish_deal_kind" CHECK ("kind" IN ('bought', 'asked', 'sold', 'given', 'swapped')),
    CONSTRAINT "fish_deal_amount" CHECK ("amount" >= 0 AND "currency" ~ '^[A-Z]{3}$' OR "amount" IS NULL AND "currency" IS NULL),
    CONSTRAINT "PK_fish_deal" PRIMARY KEY ("id")
  )`,
  ...[
    ['fish', 'fish_id', 'fish'],
    ['person', 'person_id', 'person'],
  ].flatMap(([name, column, target]) => [
    `ALTER TABLE "fish_deal" ADD CONSTRAINT "fish_deal_${name}" FOREIGN KEY ("${column}") REFERENCES "${target}"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
    `CREATE INDEX "fish_deal_by_${name}" ON "fish_deal" ("${column}")`,
  ]),
  `CREATE VIEW "standing_fish_deal" WITH (security_invoker = true) AS SELECT * FROM "fish_deal" WHERE withdrawn_at IS NULL`,
  `ALTER TABLE "line_grant" ADD "prices" boolean NOT NULL DEFAULT false`,
  ...guarded('fish_deal'),
];

const functions = [
  `CREATE OR REPLACE FUNCTION door_lines_with(part text) RETURNS uuid[] LANGUAGE sql STABLE PARALLEL SAFE AS $$
     SELECT (SELECT coalesce(array_agg(line_id), '{}') FROM line_grant WHERE account_id = door_account()
       AND CASE part WHEN 'scores' THEN scores WHEN 'photos' THEN photos WHEN 'notes' THEN notes
         WHEN 'water' THEN water WHEN 'place' THEN place WHEN 'prices' THEN prices
         WHEN 'score' THEN level IN ('score', 'breed') WHEN 'breed' THEN level = 'breed' ELSE false END) || door_kept()
   $$`,
];

/** In brackets with SELECT: asked once a statement, not once a row. */
const ACCOUNT = '(SELECT door_account())';
const KEEPS = '(SELECT door_keeps())';
const PRICED = `((SELECT door_lines_with('prices'))::uuid[])`;
/** Of a line those are lent who keeps it: what others paid for its fish is theirs, wherever the fish went since. */
const OF_ITS_KEEPER = `EXISTS (SELECT 1 FROM fish f WHERE f.id = "fish_deal".fish_id AND f.line_id = ANY (${PRICED})
  AND "fish_deal".person_id = coalesce((SELECT k.account_id FROM kept_line k WHERE k.line_id = f.line_id), (SELECT p.id FROM person p WHERE p.here)))`;
const OWN = `(${KEEPS} AND person_id = ${ACCOUNT})`;
const ON_OWN = `${OWN} AND fish_id IN (SELECT id FROM fish WHERE person_id = ${ACCOUNT} OR line_id = ANY ((SELECT door_kept())::uuid[]))`;
/** What a keeper paid and was paid, neither the owner of the server nor the household sees, whatever became of the fish. */
const notKeepers = (id: string, or = ''): string =>
  `(SELECT door_program()) ${or} OR NOT (SELECT door_open()) OR ${id} IS NULL OR ${id} NOT IN (SELECT id FROM person WHERE role = 'keeper' UNION ALL SELECT account_id FROM kept_line)`;
const APART = notKeepers('"fish_deal".person_id');

const policies = [
  `CREATE POLICY "lent" ON "fish_deal" FOR SELECT USING (${OF_ITS_KEEPER} OR ${OWN})`,
  `CREATE POLICY "kept_to_add" ON "fish_deal" FOR INSERT WITH CHECK (${ON_OWN})`,
  `CREATE POLICY "kept_to_change" ON "fish_deal" FOR UPDATE USING (${OWN}) WITH CHECK (${OWN})`,
  `CREATE POLICY "kept_apart" ON "fish_deal" AS RESTRICTIVE USING (${APART}) WITH CHECK (${APART})`,
  `CREATE POLICY "deals_apart" ON "record_history" AS RESTRICTIVE FOR SELECT
     USING (${notKeepers('"record_history".by_account_id', `OR "record_history".record_kind <> 'fish_deal'`)})`,
];

/** What was paid, asked and got for fish: a record of whoever did, which stays theirs when the fish goes on; and whether a line is lent with it. */
export class FishDeals1764290000000 implements MigrationInterface {
  readonly name = 'FishDeals1764290000000';

  async up(runner: QueryRunner): Promise<void> {
    // Deferred checks of rows that came before would bar a change of their tables.
    await runner.query('SET CONSTRAINTS ALL IMMEDIATE');
    for (const statement of [...table, ...functions, ...policies]) await runner.query(statement);
    await runner.query('SET CONSTRAINTS ALL DEFERRED');
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
