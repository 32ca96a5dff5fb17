import type { MigrationInterface, QueryRunner } from 'typeorm';

const statements = [
  `CREATE TABLE "locus_setting" ("id" uuid NOT NULL, "revision" integer NOT NULL DEFAULT '1', "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(), "updated_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(), "withdrawn_at" TIMESTAMP WITH TIME ZONE, "withdrawn_reason" text, "line_id" uuid, "locus_id" text NOT NULL, "frequencies" jsonb, "mis_scoring" double precision, CONSTRAINT "PK_d3369c94841c507b30e269062d2" PRIMARY KEY ("id"))`,
  `CREATE UNIQUE INDEX "locus_setting_general_once" ON "locus_setting"  ("locus_id") WHERE withdrawn_at IS NULL AND line_id IS NULL`,
  `CREATE UNIQUE INDEX "locus_setting_of_line_once" ON "locus_setting"  ("line_id", "locus_id") WHERE withdrawn_at IS NULL AND line_id IS NOT NULL`,
  `CREATE TABLE "own_locus" ("id" uuid NOT NULL, "revision" integer NOT NULL DEFAULT '1', "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(), "updated_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(), "withdrawn_at" TIMESTAMP WITH TIME ZONE, "withdrawn_reason" text, "keeper_id" uuid NOT NULL, "locus_id" text COLLATE "C" NOT NULL, "definition" jsonb NOT NULL, CONSTRAINT "own_locus_once" UNIQUE ("locus_id"), CONSTRAINT "PK_49a741c797026612b2412c56776" PRIMARY KEY ("id"))`,
  `CREATE TABLE "own_locus_version" ("own_locus_id" uuid NOT NULL, "version" integer NOT NULL, "definition" jsonb NOT NULL, "by_name" text NOT NULL, "at" TIMESTAMP WITH TIME ZONE NOT NULL, CONSTRAINT "PK_f1b60ee112b6b5cf81d2208e2a2" PRIMARY KEY ("own_locus_id", "version"))`,
  `CREATE INDEX "own_locus_version_at" ON "own_locus_version"  ("at") `,
  `CREATE TABLE "phenotype" ("id" uuid NOT NULL, "revision" integer NOT NULL DEFAULT '1', "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(), "updated_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(), "withdrawn_at" TIMESTAMP WITH TIME ZONE, "withdrawn_reason" text, "fish_id" uuid NOT NULL, "locus_id" text NOT NULL, "phenotype" text NOT NULL, "seen_on" date NOT NULL, "age_days" integer, "note" text, CONSTRAINT "PK_1354dfaed01ec5e30ea8abecc82" PRIMARY KEY ("id"))`,
  `CREATE INDEX "phenotype_by_fish" ON "phenotype"  ("fish_id", "locus_id") `,
  `CREATE TABLE "computation" ("id" uuid NOT NULL, "kind" text NOT NULL, "subject" text NOT NULL, "evidence" text NOT NULL, "state" text NOT NULL DEFAULT 'queued', "progress" double precision NOT NULL DEFAULT '0', "stop_asked" boolean NOT NULL DEFAULT false, "asked_by" text NOT NULL, "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(), "started_at" TIMESTAMP WITH TIME ZONE, "seen_at" TIMESTAMP WITH TIME ZONE, "ended_at" TIMESTAMP WITH TIME ZONE, "result" jsonb, "error_code" text, "error_message" text, CONSTRAINT "PK_400093fcb53131c03a26308300c" PRIMARY KEY ("id"))`,
  `CREATE UNIQUE INDEX "computation_wanted_once" ON "computation"  ("kind", "subject", "evidence") WHERE state IN ('queued', 'running', 'done')`,
  `ALTER TABLE "spawn_loss" ADD "phenotype" text`,
  `ALTER TABLE "locus_setting" ADD CONSTRAINT "locus_setting_line" FOREIGN KEY ("line_id") REFERENCES "line"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "own_locus" ADD CONSTRAINT "own_locus_keeper" FOREIGN KEY ("keeper_id") REFERENCES "keeper"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "own_locus_version" ADD CONSTRAINT "own_locus_version_of" FOREIGN KEY ("own_locus_id") REFERENCES "own_locus"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "phenotype" ADD CONSTRAINT "phenotype_fish" FOREIGN KEY ("fish_id") REFERENCES "fish"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
];

/** What was seen on fish, loci of the keeper's own, what is taken for granted of loci, and long computations. */
export class Carriers1764070000000 implements MigrationInterface {
  readonly name = 'Carriers1764070000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
