import type { MigrationInterface, QueryRunner } from 'typeorm';
import { guarded } from './guarded.js';

const record = `
    "id" uuid NOT NULL,
    "revision" integer NOT NULL DEFAULT '1',
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "updated_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "withdrawn_at" TIMESTAMP WITH TIME ZONE,
    "withdrawn_reason" text`;
const pointsTo = (table: string, name: string, column: string, to: string): string =>
  `ALTER TABLE "${table}" ADD CONSTRAINT "${name}" FOREIGN KEY ("${column}") REFERENCES "${to}"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`;

/** In brackets with SELECT: asked once a statement, not once a row. */
const ACCOUNT = '(SELECT door_account())';
const SELF = '(SELECT door_self())';
const KEPT = '((SELECT door_kept())::uuid[])';
const notApart = (line: string): string =>
  `((SELECT door_alone()) OR ${line} <> ALL ((SELECT door_kept_apart())::uuid[]))`;

const consent = [
  `CREATE TABLE "club_line" (
    "line_id" uuid NOT NULL,
    "keeper_id" uuid NOT NULL,
    "shown" boolean NOT NULL DEFAULT false,
    "counted" boolean NOT NULL DEFAULT false,
    "by_account_id" uuid DEFAULT door_account(),
    "changed_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    CONSTRAINT "PK_club_line" PRIMARY KEY ("line_id")
  )`,
  pointsTo('club_line', 'club_line_line', 'line_id', 'line'),
  pointsTo('club_line', 'club_line_keeper', 'keeper_id', 'person'),
  ...guarded('club_line'),
  `CREATE POLICY "kept" ON "club_line" USING (line_id = ANY (${KEPT})) WITH CHECK (line_id = ANY (${KEPT}))`,
  // That a line is shown, and whose it is, everybody with an account may know.
  `CREATE POLICY "shown" ON "club_line" FOR SELECT USING (shown AND ${ACCOUNT} IS NOT NULL)`,
  `CREATE POLICY "kept_apart" ON "club_line" AS RESTRICTIVE FOR SELECT USING ((SELECT door_alone()) OR shown OR ${notApart('line_id')})`,
  ...['INSERT WITH CHECK', 'UPDATE USING', 'DELETE USING'].map(
    (what) =>
      `CREATE POLICY "kept_apart_${what.slice(0, 6).toLowerCase()}" ON "club_line" AS RESTRICTIVE FOR ${what} (${notApart('line_id')})`,
  ),
  `CREATE TABLE "club_figure" (
    "figure" text NOT NULL,
    "line_ids" uuid array NOT NULL,
    CONSTRAINT "PK_club_figure" PRIMARY KEY ("figure")
  )`,
  ...guarded('club_figure'),
  `CREATE POLICY "program_alone" ON "club_figure" AS RESTRICTIVE USING ((SELECT door_program())) WITH CHECK ((SELECT door_program()))`,
];

const requests = [
  `CREATE TABLE "club_request" (
    "id" uuid NOT NULL,
    "line_id" uuid NOT NULL,
    "line_name" text NOT NULL,
    "from_id" uuid NOT NULL,
    "to_id" uuid NOT NULL,
    "what" text NOT NULL,
    "words" text NOT NULL,
    "asked_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "state" text NOT NULL DEFAULT 'open',
    "answer" text,
    "ended_at" TIMESTAMP WITH TIME ZONE,
    CONSTRAINT "club_request_what" CHECK ("what" IN ('fish', 'loan', 'stud')),
    CONSTRAINT "club_request_state" CHECK ("state" IN ('open', 'yes', 'no', 'withdrawn')),
    CONSTRAINT "PK_club_request" PRIMARY KEY ("id")
  )`,
  `CREATE INDEX "club_request_by_asked" ON "club_request" ("asked_at", "id")`,
  pointsTo('club_request', 'club_request_line', 'line_id', 'line'),
  pointsTo('club_request', 'club_request_from', 'from_id', 'person'),
  pointsTo('club_request', 'club_request_to', 'to_id', 'person'),
  ...guarded('club_request'),
  `CREATE POLICY "own" ON "club_request" FOR SELECT USING (from_id = ${SELF} OR to_id = ${SELF})`,
  `CREATE POLICY "own_to_add" ON "club_request" FOR INSERT WITH CHECK (from_id = ${SELF})`,
  `CREATE POLICY "own_to_change" ON "club_request" FOR UPDATE USING (from_id = ${SELF} OR to_id = ${SELF})`,
  // The owner and the household see those that are theirs alone.
  `CREATE POLICY "own_alone" ON "club_request" AS RESTRICTIVE USING ((SELECT door_program()) OR from_id = ${SELF} OR to_id = ${SELF})`,
  // Not asked for whoever sees everybody: it would come round to door_self().
  `CREATE POLICY "club" ON "person" FOR SELECT USING (CASE WHEN (SELECT door_open()) THEN false
     ELSE id IN (SELECT keeper_id FROM club_line) OR id IN (SELECT from_id FROM club_request)
       OR id IN (SELECT to_id FROM club_request) END)`,
];

const seen = `(fish_id IN (SELECT id FROM fish) OR spawn_id IN (SELECT id FROM spawn))`;
const comments = [
  `CREATE TABLE "comment" (${record},
    "fish_id" uuid,
    "spawn_id" uuid,
    "person_id" uuid NOT NULL DEFAULT door_account(),
    "words" text NOT NULL,
    CONSTRAINT "comment_of_one" CHECK (("fish_id" IS NULL) <> ("spawn_id" IS NULL)),
    CONSTRAINT "PK_comment" PRIMARY KEY ("id")
  )`,
  `CREATE INDEX "comment_by_fish" ON "comment" ("fish_id")`,
  `CREATE INDEX "comment_by_spawn" ON "comment" ("spawn_id")`,
  pointsTo('comment', 'comment_fish', 'fish_id', 'fish'),
  pointsTo('comment', 'comment_spawn', 'spawn_id', 'spawn'),
  pointsTo('comment', 'comment_person', 'person_id', 'person'),
  ...guarded('comment'),
  `CREATE VIEW "standing_comment" WITH (security_invoker = true) AS SELECT * FROM "comment" WHERE withdrawn_at IS NULL`,
  `CREATE POLICY "lent" ON "comment" FOR SELECT USING (${seen})`,
  `CREATE POLICY "lent_to_add" ON "comment" FOR INSERT WITH CHECK (person_id = ${ACCOUNT} AND ${seen})`,
  `CREATE POLICY "lent_to_change" ON "comment" FOR UPDATE USING (person_id = ${ACCOUNT} AND ${seen})`,
  `CREATE POLICY "kept_apart" ON "comment" AS RESTRICTIVE USING ((SELECT door_alone()) OR ${seen})`,
];

/** What is shown to the club line by line, requests to keepers of shown lines, and comments on fish and spawns. */
export class Club1764206000000 implements MigrationInterface {
  readonly name = 'Club1764206000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of [...consent, ...requests, ...comments]) await runner.query(statement);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
