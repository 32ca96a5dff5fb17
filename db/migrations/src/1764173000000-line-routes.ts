import type { MigrationInterface, QueryRunner } from 'typeorm';
import { guarded } from './guarded.js';

const deferred = 'ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED';

const statements = [
  `CREATE TABLE "line_route" (
    "id" uuid NOT NULL,
    "revision" integer NOT NULL DEFAULT '1',
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "updated_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "withdrawn_at" TIMESTAMP WITH TIME ZONE,
    "withdrawn_reason" text,
    "line_id" uuid NOT NULL,
    "keeper_id" uuid NOT NULL,
    "adopted_on" date NOT NULL,
    "purpose_version" integer NOT NULL,
    "content" jsonb NOT NULL,
    "chosen_spawns" jsonb NOT NULL DEFAULT '[]',
    "note" text,
    CONSTRAINT "PK_line_route" PRIMARY KEY ("id"),
    CONSTRAINT "line_route_line" FOREIGN KEY ("line_id") REFERENCES "line"("id") ${deferred},
    CONSTRAINT "line_route_keeper" FOREIGN KEY ("keeper_id") REFERENCES "keeper"("id") ${deferred}
  )`,
  `CREATE INDEX "line_route_by_line" ON "line_route" ("line_id")`,
  `CREATE UNIQUE INDEX "line_route_once" ON "line_route" ("line_id") WHERE withdrawn_at IS NULL`,
  `CREATE VIEW "standing_line_route" WITH (security_invoker = true) AS SELECT * FROM "line_route" WHERE withdrawn_at IS NULL`,
  ...guarded('line_route'),
];

/** Routes that were adopted as the plan of a line, with what was expected of them then. */
export class LineRoutes1764173000000 implements MigrationInterface {
  readonly name = 'LineRoutes1764173000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
