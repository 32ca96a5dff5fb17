import type { MigrationInterface, QueryRunner } from 'typeorm';

const tables = [
  `CREATE TABLE "keeper" (
    "id" uuid NOT NULL,
    "name" text NOT NULL,
    "here" boolean NOT NULL DEFAULT false,
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    CONSTRAINT "PK_9be119a8c475ec0a50afaf3ad30" PRIMARY KEY ("id")
  )`,
  `CREATE UNIQUE INDEX "keeper_here_once" ON "keeper" ("here") WHERE here`,
  `CREATE TABLE "credential" (
    "keeper_id" uuid NOT NULL,
    "password_hash" text NOT NULL,
    CONSTRAINT "PK_a587cc12394333ef63719304fc1" PRIMARY KEY ("keeper_id")
  )`,
  `CREATE TABLE "session" (
    "id_hash" text NOT NULL,
    "keeper_id" uuid NOT NULL,
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "expires_at" TIMESTAMP WITH TIME ZONE NOT NULL,
    CONSTRAINT "PK_e9476905e96fde31ad0ba43b1d3" PRIMARY KEY ("id_hash")
  )`,
  `CREATE INDEX "session_expires_at" ON "session" ("expires_at")`,
  `CREATE TABLE "refused_sign_in" (
    "sequence" bigint GENERATED ALWAYS AS IDENTITY NOT NULL,
    "address" text NOT NULL,
    "at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    CONSTRAINT "PK_refused_sign_in" PRIMARY KEY ("sequence")
  )`,
  `CREATE INDEX "refused_sign_in_by_address" ON "refused_sign_in" ("address", "at")`,
  `CREATE TABLE "fish" (
    "id" uuid NOT NULL,
    "revision" integer NOT NULL DEFAULT '1',
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "updated_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "withdrawn_at" TIMESTAMP WITH TIME ZONE,
    "withdrawn_reason" text,
    "keeper_id" uuid NOT NULL,
    "tag" text COLLATE "C" NOT NULL,
    "name" text,
    "sex" text NOT NULL,
    "hatch_date" date,
    "line_id" uuid,
    "spawn_id" uuid,
    "origin" text,
    "note" text,
    "disposition" text NOT NULL DEFAULT 'unsorted',
    "disposition_date" date,
    "disposition_reason" text,
    CONSTRAINT "fish_tag_once" UNIQUE ("keeper_id", "tag"),
    CONSTRAINT "PK_6ffb9180fd59d279a93e2a6f786" PRIMARY KEY ("id")
  )`,
  `CREATE INDEX "fish_by_line" ON "fish" ("line_id")`,
  `CREATE INDEX "fish_by_spawn" ON "fish" ("spawn_id")`,
  `CREATE INDEX "fish_by_disposition" ON "fish" ("disposition")`,
  `CREATE INDEX "fish_by_created_at" ON "fish" ("created_at", "id")`,
  `CREATE INDEX "fish_by_hatch_date" ON "fish" ("hatch_date", "id")`,
  `CREATE INDEX "fish_by_tag" ON "fish" ("tag", "id")`,
  `CREATE TABLE "genotype" (
    "id" uuid NOT NULL,
    "revision" integer NOT NULL DEFAULT '1',
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "updated_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "withdrawn_at" TIMESTAMP WITH TIME ZONE,
    "withdrawn_reason" text,
    "fish_id" uuid NOT NULL,
    "locus_id" text NOT NULL,
    "genotype" text NOT NULL,
    "basis" text NOT NULL,
    "note" text,
    CONSTRAINT "PK_c21a5c913ee4017743f9f1b06f4" PRIMARY KEY ("id")
  )`,
  `CREATE UNIQUE INDEX "genotype_in_force_once" ON "genotype" ("fish_id", "locus_id") WHERE withdrawn_at IS NULL`,
  `CREATE TABLE "record_history" (
    "sequence" bigint GENERATED ALWAYS AS IDENTITY NOT NULL,
    "record_kind" text NOT NULL,
    "record_id" uuid NOT NULL,
    "revision" integer NOT NULL,
    "at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "by_name" text NOT NULL,
    "action" text NOT NULL,
    "changes" jsonb NOT NULL,
    CONSTRAINT "PK_ac02f7d7abc1dfb237075b98940" PRIMARY KEY ("sequence")
  )`,
  `CREATE INDEX "record_history_by_record" ON "record_history" ("record_id", "sequence")`,
  `CREATE TABLE "line" (
    "id" uuid NOT NULL,
    "revision" integer NOT NULL DEFAULT '1',
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "updated_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "withdrawn_at" TIMESTAMP WITH TIME ZONE,
    "withdrawn_reason" text,
    "keeper_id" uuid NOT NULL,
    "code" text COLLATE "C" NOT NULL,
    "name" text NOT NULL,
    "goal" text,
    CONSTRAINT "line_code_once" UNIQUE ("keeper_id", "code"),
    CONSTRAINT "PK_3d944a608f62f599dfe688ff2b1" PRIMARY KEY ("id")
  )`,
  `CREATE TABLE "pairing" (
    "id" uuid NOT NULL,
    "revision" integer NOT NULL DEFAULT '1',
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "updated_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "withdrawn_at" TIMESTAMP WITH TIME ZONE,
    "withdrawn_reason" text,
    "keeper_id" uuid NOT NULL,
    "sire_id" uuid NOT NULL,
    "dam_id" uuid NOT NULL,
    "state" text NOT NULL DEFAULT 'planned',
    "planned_on" date NOT NULL,
    "reason" text,
    "note" text,
    CONSTRAINT "PK_c3c0ac8fe888bef766c3366e36b" PRIMARY KEY ("id")
  )`,
  `CREATE INDEX "pairing_by_sire" ON "pairing" ("sire_id")`,
  `CREATE INDEX "pairing_by_dam" ON "pairing" ("dam_id")`,
  `CREATE TABLE "trait_definition" (
    "id" uuid NOT NULL,
    "revision" integer NOT NULL DEFAULT '1',
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "updated_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "withdrawn_at" TIMESTAMP WITH TIME ZONE,
    "withdrawn_reason" text,
    "keeper_id" uuid NOT NULL,
    "key" text COLLATE "C" NOT NULL,
    "name" text NOT NULL,
    "kind" text NOT NULL,
    "unit" text,
    "minimum" double precision,
    "maximum" double precision,
    "higher_is_better" boolean,
    "from_age_days" integer,
    "to_age_days" integer,
    "description" text,
    "version" integer NOT NULL DEFAULT '1',
    CONSTRAINT "trait_key_once" UNIQUE ("keeper_id", "key"),
    CONSTRAINT "PK_8364e5e382b50e390aa914c7734" PRIMARY KEY ("id")
  )`,
  `CREATE TABLE "score" (
    "id" uuid NOT NULL,
    "revision" integer NOT NULL DEFAULT '1',
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "updated_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "withdrawn_at" TIMESTAMP WITH TIME ZONE,
    "withdrawn_reason" text,
    "fish_id" uuid NOT NULL,
    "trait_id" uuid NOT NULL,
    "trait_version" integer NOT NULL,
    "value" double precision NOT NULL,
    "scored_on" date NOT NULL,
    "age_days" integer,
    "scorer" text NOT NULL,
    "note" text,
    "corrects_id" uuid,
    CONSTRAINT "PK_1770f42c61451103f5514134078" PRIMARY KEY ("id")
  )`,
  `CREATE INDEX "score_by_trait" ON "score" ("trait_id")`,
  `CREATE INDEX "score_by_corrected" ON "score" ("corrects_id")`,
  `CREATE INDEX "score_by_fish_trait" ON "score" ("fish_id", "trait_id", "scored_on")`,
  `CREATE TABLE "share_base" (
    "record_id" uuid NOT NULL,
    "record_kind" text NOT NULL,
    "content_hash" text NOT NULL,
    "agreed_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    CONSTRAINT "PK_9581947fb40e5edb17a8ce39d51" PRIMARY KEY ("record_id")
  )`,
  `CREATE TABLE "spawn_event" (
    "id" uuid NOT NULL,
    "revision" integer NOT NULL DEFAULT '1',
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "updated_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "withdrawn_at" TIMESTAMP WITH TIME ZONE,
    "withdrawn_reason" text,
    "spawn_id" uuid NOT NULL,
    "kind" text NOT NULL,
    "at" TIMESTAMP WITH TIME ZONE NOT NULL,
    "note" text,
    CONSTRAINT "PK_bc016ee426614f3270092eb740f" PRIMARY KEY ("id")
  )`,
  `CREATE INDEX "spawn_event_by_spawn" ON "spawn_event" ("spawn_id")`,
  `CREATE TABLE "spawn_count" (
    "id" uuid NOT NULL,
    "revision" integer NOT NULL DEFAULT '1',
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "updated_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "withdrawn_at" TIMESTAMP WITH TIME ZONE,
    "withdrawn_reason" text,
    "spawn_id" uuid NOT NULL,
    "stage" text NOT NULL,
    "counted_on" date NOT NULL,
    "number" integer NOT NULL,
    "note" text,
    CONSTRAINT "PK_0c0e5f8ee4ef0999117c794cd59" PRIMARY KEY ("id")
  )`,
  `CREATE INDEX "spawn_count_by_spawn" ON "spawn_count" ("spawn_id")`,
  `CREATE TABLE "spawn_loss" (
    "id" uuid NOT NULL,
    "revision" integer NOT NULL DEFAULT '1',
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "updated_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "withdrawn_at" TIMESTAMP WITH TIME ZONE,
    "withdrawn_reason" text,
    "spawn_id" uuid NOT NULL,
    "kind" text NOT NULL,
    "on_date" date NOT NULL,
    "number" integer NOT NULL,
    "reason" text NOT NULL,
    "heritable" boolean NOT NULL DEFAULT false,
    "locus_id" text,
    "note" text,
    CONSTRAINT "PK_f517e54b788c119b9aaae40b827" PRIMARY KEY ("id")
  )`,
  `CREATE INDEX "spawn_loss_by_spawn" ON "spawn_loss" ("spawn_id")`,
  `CREATE TABLE "class_count" (
    "id" uuid NOT NULL,
    "revision" integer NOT NULL DEFAULT '1',
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "updated_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "withdrawn_at" TIMESTAMP WITH TIME ZONE,
    "withdrawn_reason" text,
    "spawn_id" uuid NOT NULL,
    "locus_ids" text array NOT NULL,
    "phenotype" text NOT NULL,
    "number" integer NOT NULL,
    "counted_on" date NOT NULL,
    "note" text,
    CONSTRAINT "PK_87c8e54ad81c7f042481392a17b" PRIMARY KEY ("id")
  )`,
  `CREATE INDEX "class_count_by_spawn" ON "class_count" ("spawn_id")`,
  `CREATE TABLE "spawn" (
    "id" uuid NOT NULL,
    "revision" integer NOT NULL DEFAULT '1',
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "updated_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "withdrawn_at" TIMESTAMP WITH TIME ZONE,
    "withdrawn_reason" text,
    "keeper_id" uuid NOT NULL,
    "tag" text COLLATE "C" NOT NULL,
    "line_id" uuid,
    "sire_id" uuid,
    "dam_id" uuid,
    "pairing_id" uuid,
    "spawned_on" date,
    "hatch_date" date,
    "purpose" text,
    "note" text,
    "failed" boolean NOT NULL DEFAULT false,
    "failed_reason" text,
    CONSTRAINT "spawn_tag_once" UNIQUE ("keeper_id", "tag"),
    CONSTRAINT "PK_cf285642fedbe14c8fc6f99ea4b" PRIMARY KEY ("id")
  )`,
  `CREATE INDEX "spawn_by_line" ON "spawn" ("line_id")`,
  `CREATE INDEX "spawn_by_sire" ON "spawn" ("sire_id")`,
  `CREATE INDEX "spawn_by_dam" ON "spawn" ("dam_id")`,
  `CREATE INDEX "spawn_by_pairing" ON "spawn" ("pairing_id")`,
  `CREATE INDEX "spawn_by_tag" ON "spawn" ("tag", "id")`,
  `CREATE INDEX "spawn_by_spawned_on" ON "spawn" ("spawned_on", "id")`,
  `CREATE TABLE "install_state" (
    "id" integer NOT NULL,
    "demo" boolean NOT NULL DEFAULT false,
    "pedigree_revision" bigint NOT NULL DEFAULT '0',
    CONSTRAINT "PK_ab0108d2a6b7a270dbaca22d7b5" PRIMARY KEY ("id")
  )`,
  `ALTER TABLE "credential" ADD CONSTRAINT "credential_keeper" FOREIGN KEY ("keeper_id") REFERENCES "keeper"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "session" ADD CONSTRAINT "session_keeper" FOREIGN KEY ("keeper_id") REFERENCES "keeper"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "fish" ADD CONSTRAINT "fish_keeper" FOREIGN KEY ("keeper_id") REFERENCES "keeper"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "fish" ADD CONSTRAINT "fish_line" FOREIGN KEY ("line_id") REFERENCES "line"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "fish" ADD CONSTRAINT "fish_spawn" FOREIGN KEY ("spawn_id") REFERENCES "spawn"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "genotype" ADD CONSTRAINT "genotype_fish" FOREIGN KEY ("fish_id") REFERENCES "fish"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "line" ADD CONSTRAINT "line_keeper" FOREIGN KEY ("keeper_id") REFERENCES "keeper"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "pairing" ADD CONSTRAINT "pairing_keeper" FOREIGN KEY ("keeper_id") REFERENCES "keeper"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "pairing" ADD CONSTRAINT "pairing_sire" FOREIGN KEY ("sire_id") REFERENCES "fish"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "pairing" ADD CONSTRAINT "pairing_dam" FOREIGN KEY ("dam_id") REFERENCES "fish"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "trait_definition" ADD CONSTRAINT "trait_keeper" FOREIGN KEY ("keeper_id") REFERENCES "keeper"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "score" ADD CONSTRAINT "score_fish" FOREIGN KEY ("fish_id") REFERENCES "fish"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "score" ADD CONSTRAINT "score_trait" FOREIGN KEY ("trait_id") REFERENCES "trait_definition"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "score" ADD CONSTRAINT "score_corrects" FOREIGN KEY ("corrects_id") REFERENCES "score"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "spawn_event" ADD CONSTRAINT "spawn_event_spawn" FOREIGN KEY ("spawn_id") REFERENCES "spawn"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "spawn_count" ADD CONSTRAINT "spawn_count_spawn" FOREIGN KEY ("spawn_id") REFERENCES "spawn"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "spawn_loss" ADD CONSTRAINT "spawn_loss_spawn" FOREIGN KEY ("spawn_id") REFERENCES "spawn"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "class_count" ADD CONSTRAINT "class_count_spawn" FOREIGN KEY ("spawn_id") REFERENCES "spawn"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "spawn" ADD CONSTRAINT "spawn_keeper" FOREIGN KEY ("keeper_id") REFERENCES "keeper"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "spawn" ADD CONSTRAINT "spawn_line" FOREIGN KEY ("line_id") REFERENCES "line"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "spawn" ADD CONSTRAINT "spawn_sire" FOREIGN KEY ("sire_id") REFERENCES "fish"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "spawn" ADD CONSTRAINT "spawn_dam" FOREIGN KEY ("dam_id") REFERENCES "fish"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `ALTER TABLE "spawn" ADD CONSTRAINT "spawn_pairing" FOREIGN KEY ("pairing_id") REFERENCES "pairing"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
];

/** Computed figures are tied to this revision, so that no process serves an old F after another changed a parent. */
const pedigreeRevision = [
  `CREATE FUNCTION raise_pedigree_revision() RETURNS trigger LANGUAGE plpgsql AS $$
   BEGIN
     UPDATE install_state SET pedigree_revision = pedigree_revision + 1 WHERE id = 1;
     RETURN NULL;
   END $$`,
  `CREATE TRIGGER fish_raises_pedigree_revision
     AFTER INSERT OR DELETE OR TRUNCATE OR UPDATE OF spawn_id, sex, hatch_date, withdrawn_at ON fish
     FOR EACH STATEMENT EXECUTE FUNCTION raise_pedigree_revision()`,
  `CREATE TRIGGER spawn_raises_pedigree_revision
     AFTER INSERT OR DELETE OR TRUNCATE OR UPDATE OF sire_id, dam_id, withdrawn_at ON spawn
     FOR EACH STATEMENT EXECUTE FUNCTION raise_pedigree_revision()`,
  `INSERT INTO install_state (id) VALUES (1)`,
];

export class Records1764068400000 implements MigrationInterface {
  readonly name = 'Records1764068400000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of [...tables, ...pedigreeRevision]) await runner.query(statement);
  }

  down(): Promise<void> {
    return Promise.reject(
      new Error('There is no way back from the first migration: restore a backup instead.'),
    );
  }
}
