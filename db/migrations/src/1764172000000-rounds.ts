import type { MigrationInterface, QueryRunner } from 'typeorm';
import { guarded } from './guarded.js';

const deferred = 'ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED';

const statements = [
  `CREATE TABLE "round" (
    "id" uuid NOT NULL,
    "revision" integer NOT NULL DEFAULT '1',
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "updated_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "withdrawn_at" TIMESTAMP WITH TIME ZONE,
    "withdrawn_reason" text,
    "line_id" uuid NOT NULL,
    "keeper_id" uuid NOT NULL,
    "purpose_version" integer NOT NULL,
    "planned_on" date NOT NULL,
    "kinship_limit" double precision,
    "expected_worth" double precision NOT NULL,
    "expected_kinship" double precision NOT NULL,
    "expected_inbreeding" double precision NOT NULL,
    "note" text,
    "learnt" text,
    CONSTRAINT "PK_round" PRIMARY KEY ("id"),
    CONSTRAINT "round_line" FOREIGN KEY ("line_id") REFERENCES "line"("id") ${deferred},
    CONSTRAINT "round_keeper" FOREIGN KEY ("keeper_id") REFERENCES "keeper"("id") ${deferred}
  )`,
  `CREATE INDEX "round_by_line" ON "round" ("line_id")`,
  `CREATE TABLE "round_pair" (
    "round_id" uuid NOT NULL,
    "pairing_id" uuid NOT NULL,
    "place" integer NOT NULL,
    "expected_worth" double precision NOT NULL,
    "expected_inbreeding" double precision NOT NULL,
    CONSTRAINT "PK_round_pair" PRIMARY KEY ("round_id", "pairing_id"),
    CONSTRAINT "round_pair_round" FOREIGN KEY ("round_id") REFERENCES "round"("id") ${deferred},
    CONSTRAINT "round_pair_pairing" FOREIGN KEY ("pairing_id") REFERENCES "pairing"("id") ${deferred}
  )`,
  `CREATE INDEX "round_pair_by_pairing" ON "round_pair" ("pairing_id")`,
  `CREATE VIEW "standing_round" WITH (security_invoker = true) AS SELECT * FROM "round" WHERE withdrawn_at IS NULL`,
  ...['round', 'round_pair'].flatMap(guarded),
];

/** Rounds: the pairs that were chosen together for a line, and what was expected of them then. */
export class Rounds1764172000000 implements MigrationInterface {
  readonly name = 'Rounds1764172000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
