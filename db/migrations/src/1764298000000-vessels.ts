import type { MigrationInterface, QueryRunner } from 'typeorm';
import { guarded } from './guarded.js';

/** In brackets with SELECT: asked once a statement, not once a row. */
const ACCOUNT = '(SELECT door_account())';
const KEEPS = '(SELECT door_keeps())';
const pointsTo = (table: string, name: string, column: string, to: string): string =>
  `ALTER TABLE "${table}" ADD CONSTRAINT "${name}" FOREIGN KEY ("${column}") REFERENCES "${to}"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`;
/** Codes are one where they differ in case and spaces alone. */
const plain = (code: string): string => `lower(regexp_replace(${code}, '\\s', '', 'g'))`;

const vessels = [
  `CREATE TABLE "vessel" (
    "id" uuid NOT NULL,
    "revision" integer NOT NULL DEFAULT '1',
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "updated_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "withdrawn_at" TIMESTAMP WITH TIME ZONE,
    "withdrawn_reason" text,
    "person_id" uuid NOT NULL,
    "code" text NOT NULL,
    "kind" text NOT NULL,
    "litres" double precision,
    "rack" text,
    "shelf" integer,
    "position" integer,
    "note" text,
    CONSTRAINT "vessel_kind" CHECK ("kind" IN ('jar', 'tank', 'tub', 'cone', 'other')),
    CONSTRAINT "PK_vessel" PRIMARY KEY ("id")
  )`,
  pointsTo('vessel', 'vessel_person', 'person_id', 'person'),
  `CREATE UNIQUE INDEX "vessel_by_code" ON "vessel" ("person_id", ${plain('code')}) WHERE withdrawn_at IS NULL`,
  ...guarded('vessel'),
  `CREATE VIEW "standing_vessel" WITH (security_invoker = true) AS SELECT * FROM "vessel" WHERE withdrawn_at IS NULL`,
  // Where fish are kept is their keeper's alone: no partner is lent a vessel.
  `CREATE POLICY "kept" ON "vessel" USING (person_id = ${ACCOUNT} AND ${KEEPS}) WITH CHECK (person_id = ${ACCOUNT} AND ${KEEPS})`,
  ...[`(SELECT door_alone()) OR "vessel".person_id NOT IN (SELECT account_id FROM kept_line)`].map(
    (may) =>
      `CREATE POLICY "kept_apart" ON "vessel" AS RESTRICTIVE USING (${may}) WITH CHECK (${may})`,
  ),
];

const ofOwn = `vessel_id IN (SELECT id FROM vessel WHERE person_id = ${ACCOUNT}) AND ${KEEPS}`;
const ofSeen = `(SELECT door_alone()) OR "vessel_stay".vessel_id IN (SELECT id FROM vessel)`;
const stays = [
  `CREATE TABLE "vessel_stay" (
    "id" uuid NOT NULL,
    "vessel_id" uuid NOT NULL,
    "fish_id" uuid,
    "spawn_id" uuid,
    "came_at" TIMESTAMP WITH TIME ZONE NOT NULL,
    "left_at" TIMESTAMP WITH TIME ZONE,
    "company" text,
    "by_name" text NOT NULL,
    CONSTRAINT "vessel_stay_of_one" CHECK (("fish_id" IS NULL) <> ("spawn_id" IS NULL)),
    CONSTRAINT "vessel_stay_company" CHECK ("company" IN ('sorority', 'pair', 'grow_out')),
    CONSTRAINT "PK_vessel_stay" PRIMARY KEY ("id")
  )`,
  `CREATE INDEX "vessel_stay_by_vessel" ON "vessel_stay" ("vessel_id", "came_at")`,
  `CREATE INDEX "vessel_stay_by_fish" ON "vessel_stay" ("fish_id", "came_at")`,
  `CREATE INDEX "vessel_stay_by_spawn" ON "vessel_stay" ("spawn_id", "came_at")`,
  `CREATE UNIQUE INDEX "vessel_stay_of_fish_now" ON "vessel_stay" ("fish_id") WHERE left_at IS NULL`,
  `CREATE UNIQUE INDEX "vessel_stay_of_spawn_now" ON "vessel_stay" ("spawn_id") WHERE left_at IS NULL`,
  pointsTo('vessel_stay', 'vessel_stay_vessel', 'vessel_id', 'vessel'),
  pointsTo('vessel_stay', 'vessel_stay_fish', 'fish_id', 'fish'),
  pointsTo('vessel_stay', 'vessel_stay_spawn', 'spawn_id', 'spawn'),
  ...guarded('vessel_stay'),
  `CREATE POLICY "kept" ON "vessel_stay" USING (${ofOwn}) WITH CHECK (${ofOwn})`,
  `CREATE POLICY "kept_apart" ON "vessel_stay" AS RESTRICTIVE USING (${ofSeen}) WITH CHECK (${ofSeen})`,
];

/** The vessel of a reading stays as it was written; which of the records it is stands beside it. */
const water = [
  `ALTER TABLE "water_reading" ADD "vessel_id" uuid`,
  pointsTo('water_reading', 'water_reading_vessel', 'vessel_id', 'vessel'),
  `CREATE INDEX "water_reading_by_vessel" ON "water_reading" ("vessel_id")`,
  `DROP VIEW "standing_water_reading"`,
  `CREATE VIEW "standing_water_reading" WITH (security_invoker = true) AS SELECT * FROM "water_reading" WHERE withdrawn_at IS NULL`,
  // The way most readings write it names the vessel, of two the one written first; the others stand in its note.
  `INSERT INTO "vessel" (id, person_id, code, kind, note)
   SELECT gen_random_uuid(), person_id, codes[1],
     CASE WHEN codes[1] ~* 'jar' THEN 'jar' WHEN codes[1] ~* 'tub' THEN 'tub' WHEN codes[1] ~* 'tank' THEN 'tank'
       WHEN codes[1] ~* 'cone' THEN 'cone' ELSE 'other' END,
     CASE WHEN cardinality(codes) > 1 THEN 'Also written: ' || array_to_string(codes[2:], ', ') END
   FROM (SELECT person_id, array_agg(vessel ORDER BY times DESC, first, vessel) AS codes
     FROM (SELECT person_id, vessel, count(*) AS times, min(taken_at) AS first FROM "water_reading"
       WHERE vessel IS NOT NULL GROUP BY person_id, vessel) written
     GROUP BY person_id, ${plain('vessel')}) ways`,
  `UPDATE "water_reading" w SET vessel_id = v.id FROM "vessel" v
   WHERE v.person_id = w.person_id AND ${plain('v.code')} = ${plain('w.vessel')}`,
];

/** Jars, tanks and tubs as records, who was in which from when to when, and whose water a reading is of. */
export class Vessels1764298000000 implements MigrationInterface {
  readonly name = 'Vessels1764298000000';

  async up(runner: QueryRunner): Promise<void> {
    // Deferred checks of rows that came before would bar a change of their tables.
    await runner.query('SET CONSTRAINTS ALL IMMEDIATE');
    for (const statement of [...vessels, ...stays, ...water]) await runner.query(statement);
    await runner.query('SET CONSTRAINTS ALL DEFERRED');
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
