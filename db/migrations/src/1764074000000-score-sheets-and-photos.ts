import type { MigrationInterface, QueryRunner } from 'typeorm';

const record = `
    "id" uuid NOT NULL,
    "revision" integer NOT NULL DEFAULT '1',
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "updated_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "withdrawn_at" TIMESTAMP WITH TIME ZONE,
    "withdrawn_reason" text`;

const pointsAt = (table: string, name: string, column: string, target: string): string =>
  `ALTER TABLE "${table}" ADD CONSTRAINT "${name}" FOREIGN KEY ("${column}") REFERENCES "${target}"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`;

const statements = [
  `CREATE TABLE "score_sheet" (${record},
    "keeper_id" uuid NOT NULL,
    "name" text NOT NULL,
    "description" text,
    "version" integer NOT NULL DEFAULT '1',
    PRIMARY KEY ("id")
  )`,
  `CREATE TABLE "score_sheet_version" (
    "sheet_id" uuid NOT NULL,
    "version" integer NOT NULL,
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "from_age_days" integer,
    "to_age_days" integer,
    "lines" jsonb NOT NULL,
    "faults" jsonb NOT NULL,
    "deductions" jsonb NOT NULL,
    PRIMARY KEY ("sheet_id", "version")
  )`,
  `CREATE TABLE "sheet_scoring" (${record},
    "fish_id" uuid NOT NULL,
    "sheet_id" uuid NOT NULL,
    "sheet_version" integer NOT NULL,
    "scored_on" date NOT NULL,
    "age_days" integer,
    "scorer" text NOT NULL,
    "note" text,
    "fault_ids" jsonb NOT NULL,
    PRIMARY KEY ("id")
  )`,
  `CREATE INDEX "sheet_scoring_by_sheet" ON "sheet_scoring" ("sheet_id")`,
  `CREATE INDEX "sheet_scoring_by_fish" ON "sheet_scoring" ("fish_id", "scored_on")`,
  `CREATE TABLE "photo" (${record},
    "subject_kind" text NOT NULL,
    "subject_id" uuid NOT NULL,
    "fish_id" uuid,
    "spawn_id" uuid,
    "taken_on" date,
    "caption" text,
    "media_type" text NOT NULL,
    "bytes" integer NOT NULL,
    "width" integer NOT NULL,
    "height" integer NOT NULL,
    "sha256" text COLLATE "C" NOT NULL,
    PRIMARY KEY ("id")
  )`,
  `CREATE INDEX "photo_by_fish" ON "photo" ("fish_id")`,
  `CREATE INDEX "photo_by_spawn" ON "photo" ("spawn_id")`,
  `CREATE INDEX "photo_by_file" ON "photo" ("sha256")`,
  `ALTER TABLE "trait_definition" ADD "grades" jsonb`,
  `ALTER TABLE "score" ADD "scoring_id" uuid`,
  `CREATE INDEX "score_by_scoring" ON "score" ("scoring_id")`,
  pointsAt('score_sheet', 'score_sheet_keeper', 'keeper_id', 'keeper'),
  pointsAt('score_sheet_version', 'score_sheet_version_sheet', 'sheet_id', 'score_sheet'),
  pointsAt('sheet_scoring', 'sheet_scoring_fish', 'fish_id', 'fish'),
  pointsAt('sheet_scoring', 'sheet_scoring_sheet', 'sheet_id', 'score_sheet'),
  pointsAt('score', 'score_scoring', 'scoring_id', 'sheet_scoring'),
  pointsAt('photo', 'photo_fish', 'fish_id', 'fish'),
  pointsAt('photo', 'photo_spawn', 'spawn_id', 'spawn'),
];

/** Score sheets with their versions, looks at a fish on a sheet, names of grades, and photos. */
export class ScoreSheetsAndPhotos1764074000000 implements MigrationInterface {
  readonly name = 'ScoreSheetsAndPhotos1764074000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`ALTER TABLE "score" DROP COLUMN "scoring_id"`);
    await runner.query(`ALTER TABLE "trait_definition" DROP COLUMN "grades"`);
    for (const table of ['photo', 'sheet_scoring', 'score_sheet_version', 'score_sheet'])
      await runner.query(`DROP TABLE "${table}"`);
  }
}
