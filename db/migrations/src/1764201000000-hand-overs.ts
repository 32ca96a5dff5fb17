import type { MigrationInterface, QueryRunner } from 'typeorm';
import { guarded } from './guarded.js';

const table = [
  `CREATE TABLE "hand_over" (
    "id" uuid NOT NULL,
    "revision" integer NOT NULL DEFAULT 1,
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "updated_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "withdrawn_at" TIMESTAMP WITH TIME ZONE,
    "withdrawn_reason" text,
    "group_id" uuid NOT NULL,
    "fish_id" uuid NOT NULL,
    "line_id" uuid,
    "from_id" uuid NOT NULL,
    "to_id" uuid,
    "to_name" text NOT NULL,
    "kind" text NOT NULL,
    "offered_on" date NOT NULL,
    "back_on" date,
    "word" text,
    "health_note" text,
    "later_spawns" boolean NOT NULL DEFAULT false,
    "scores" boolean NOT NULL DEFAULT false,
    "photos" boolean NOT NULL DEFAULT false,
    "notes" boolean NOT NULL DEFAULT false,
    "tag" text NOT NULL,
    "sex" text NOT NULL,
    "hatch_date" date,
    "line_code" text,
    "answer" text,
    "answered_on" date,
    "answer_word" text,
    "quarantine_until" date,
    "moved_on" date,
    "turn" integer,
    "return_as" text,
    "return_said_on" date,
    "return_word" text,
    "ended_on" date,
    "ended_as" text,
    "made_here" boolean NOT NULL DEFAULT false,
    "applied" boolean NOT NULL DEFAULT false,
    CONSTRAINT "PK_hand_over" PRIMARY KEY ("id")
  )`,
  ...[
    ['fish', 'fish_id', 'fish'],
    ['line', 'line_id', 'line'],
    ['from', 'from_id', 'person'],
    ['to', 'to_id', 'person'],
  ].map(
    ([name, column, target]) =>
      `ALTER TABLE "hand_over" ADD CONSTRAINT "hand_over_${name}" FOREIGN KEY ("${column}") REFERENCES "${target}"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  ),
  ...['fish', 'from', 'to'].map(
    (name) => `CREATE INDEX "hand_over_by_${name}" ON "hand_over" ("${name}_id")`,
  ),
  ...guarded('hand_over'),
  `CREATE VIEW "standing_hand_over" WITH (security_invoker = true) AS SELECT * FROM "hand_over" WHERE withdrawn_at IS NULL`,
];

const ACCOUNT = '(SELECT door_account())';

/** In brackets with SELECT: asked once a statement, not once a row. */
const handed = (part = 'all'): string => `((SELECT door_fish('${part}'))::uuid[])`;
const lines = (part: string): string => `((SELECT door_lines_with('${part}'))::uuid[])`;

const functions = [
  // Fish that whoever asks was handed and has: until it goes on, or goes back. Of a part: where it was agreed to go along.
  `CREATE OR REPLACE FUNCTION door_fish(part text) RETURNS uuid[] LANGUAGE sql STABLE PARALLEL SAFE AS $$
     SELECT coalesce(array_agg(fish_id), '{}') FROM hand_over
     WHERE to_id = door_account() AND moved_on IS NOT NULL AND ended_on IS NULL AND withdrawn_at IS NULL
       AND CASE part WHEN 'scores' THEN scores WHEN 'photos' THEN photos WHEN 'notes' THEN notes ELSE true END
   $$`,
  // Whether fish were offered to whoever asks, or by them.
  `CREATE OR REPLACE FUNCTION door_handed() RETURNS boolean LANGUAGE sql STABLE PARALLEL SAFE AS $$
     SELECT EXISTS (SELECT 1 FROM hand_over WHERE door_account() IN (from_id, to_id))
   $$`,
];

/** Beside what is lent line by line: fish that were handed over, and the two people of it. Rows are written by the program alone, which looks at both. */
const reads = [
  `CREATE POLICY "lent" ON "hand_over" FOR SELECT USING (${ACCOUNT} IN (from_id, to_id))`,
  // Who a name belongs to is told once they have answered.
  `CREATE POLICY "handed" ON "person" FOR SELECT USING (id IN (SELECT from_id FROM hand_over WHERE to_id = ${ACCOUNT})
     OR id IN (SELECT to_id FROM hand_over WHERE from_id = ${ACCOUNT} AND answer IS NOT NULL))`,
  `CREATE POLICY "handed" ON "fish" FOR SELECT USING (id = ANY (${handed()}))`,
  ...['genotype', 'phenotype'].map(
    (name) => `CREATE POLICY "handed" ON "${name}" FOR SELECT USING (fish_id = ANY (${handed()}))`,
  ),
  `CREATE POLICY "handed" ON "own_locus" FOR SELECT USING (locus_id IN (
     SELECT locus_id FROM genotype WHERE fish_id = ANY (${handed()})
     UNION ALL SELECT locus_id FROM phenotype WHERE fish_id = ANY (${handed()})))`,
  ...['score', 'sheet_scoring'].map(
    (name) =>
      `CREATE POLICY "handed" ON "${name}" FOR SELECT USING (fish_id = ANY (${handed('scores')}) OR by_account_id = ${ACCOUNT} AND fish_id = ANY (${handed()}))`,
  ),
  ...['trait_definition', 'score_sheet', 'score_sheet_version'].map(
    (name) =>
      `CREATE POLICY "handed" ON "${name}" FOR SELECT USING (cardinality(${handed('scores')}) > 0)`,
  ),
  `CREATE POLICY "handed" ON "photo" FOR SELECT USING (fish_id = ANY (${handed('photos')}))`,
];

/** Of their own fish, whoever was given it keeps the record on. */
const own = `person_id = ${ACCOUNT} AND id = ANY (${handed()})`;
const ownFish = `SELECT id FROM fish WHERE ${own}`;
const toPair = `(SELECT id FROM fish WHERE line_id = ANY (${lines('breed')}) OR id = ANY (${handed()}))`;
const mayChange = (name: string, which: string): string[] => [
  `CREATE POLICY "handed_to_add" ON "${name}" FOR INSERT WITH CHECK (${which})`,
  `CREATE POLICY "handed_to_change" ON "${name}" FOR UPDATE USING (${which}) WITH CHECK (${which})`,
];

const writes = [
  // In the line that it was handed over in, in one that they breed with, or in none.
  `CREATE POLICY "handed_to_change" ON "fish" FOR UPDATE USING (${own}) WITH CHECK (${own}
     AND (line_id IS NULL OR line_id = ANY (${lines('breed')})
       OR (id, line_id) IN (SELECT fish_id, line_id FROM hand_over WHERE to_id = ${ACCOUNT})))`,
  ...['genotype', 'phenotype'].flatMap((name) => mayChange(name, `fish_id IN (${ownFish})`)),
  ...['score', 'sheet_scoring'].flatMap((name) =>
    mayChange(name, `by_account_id = ${ACCOUNT} AND fish_id IN (${ownFish})`),
  ),
  `CREATE POLICY "handed" ON "pairing" FOR SELECT USING (person_id = ${ACCOUNT} AND (sire_id = ANY (${handed()}) OR dam_id = ANY (${handed()})))`,
  ...mayChange(
    'pairing',
    `person_id = ${ACCOUNT} AND sire_id IN ${toPair} AND dam_id IN ${toPair}`,
  ),
];

/** Fish handed from one person to another: offered, answered, moved, and lent ones come back. */
export class HandOvers1764201000000 implements MigrationInterface {
  readonly name = 'HandOvers1764201000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of [...table, ...functions, ...reads, ...writes])
      await runner.query(statement);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
