import type { MigrationInterface, QueryRunner } from 'typeorm';
import { guarded } from './guarded.js';

const record = `
    "id" uuid NOT NULL,
    "revision" integer NOT NULL DEFAULT '1',
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "updated_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "withdrawn_at" TIMESTAMP WITH TIME ZONE,
    "withdrawn_reason" text`;
const deferred = 'ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED';

const standing = (table: string): string =>
  `CREATE VIEW "standing_${table}" WITH (security_invoker = true) AS SELECT * FROM "${table}" WHERE withdrawn_at IS NULL`;

const statements = [
  `CREATE TABLE "trait_model" (${record},
    "trait_id" uuid NOT NULL,
    "season" boolean NOT NULL,
    "age" boolean NOT NULL,
    "sex" boolean NOT NULL,
    "lines_apart" boolean NOT NULL,
    "brood" boolean NOT NULL,
    "place" boolean NOT NULL,
    "looks" boolean NOT NULL,
    "scorer" boolean NOT NULL,
    "prior" text NOT NULL,
    CONSTRAINT "PK_trait_model" PRIMARY KEY ("id"),
    CONSTRAINT "trait_model_trait" FOREIGN KEY ("trait_id") REFERENCES "trait_definition"("id") ${deferred}
  )`,
  `CREATE UNIQUE INDEX "trait_model_once" ON "trait_model" ("trait_id") WHERE withdrawn_at IS NULL`,
  `CREATE TABLE "scoring_draw" (${record},
    "spawn_id" uuid NOT NULL,
    "drawn_on" date NOT NULL,
    "drawn_from" integer NOT NULL,
    "fish_ids" uuid array NOT NULL,
    "by_name" text NOT NULL,
    CONSTRAINT "PK_scoring_draw" PRIMARY KEY ("id"),
    CONSTRAINT "scoring_draw_spawn" FOREIGN KEY ("spawn_id") REFERENCES "spawn"("id") ${deferred}
  )`,
  `CREATE INDEX "scoring_draw_by_spawn" ON "scoring_draw" ("spawn_id")`,
  ...['trait_model', 'scoring_draw'].flatMap((table) => [standing(table), ...guarded(table)]),
];

/** What a trait's breeding values are worked out with, and fish that were drawn to be scored before a brood is sorted. */
export class Merit1764160000000 implements MigrationInterface {
  readonly name = 'Merit1764160000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
