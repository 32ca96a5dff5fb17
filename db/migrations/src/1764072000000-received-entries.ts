import type { MigrationInterface, QueryRunner } from 'typeorm';

const statements = [
  `CREATE TABLE "received_entry" (
    "id" uuid NOT NULL,
    "keeper_id" uuid NOT NULL,
    "kind" text NOT NULL,
    "at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "record_ids" uuid array NOT NULL DEFAULT '{}',
    "changes" jsonb NOT NULL DEFAULT '[]',
    "undone_by" uuid,
    CONSTRAINT "PK_received_entry" PRIMARY KEY ("id")
  )`,
  `CREATE INDEX "received_entry_by_keeper" ON "received_entry" ("keeper_id", "at")`,
  `ALTER TABLE "received_entry" ADD CONSTRAINT "received_entry_keeper" FOREIGN KEY ("keeper_id") REFERENCES "keeper"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
];

export class ReceivedEntries1764072000000 implements MigrationInterface {
  readonly name = 'ReceivedEntries1764072000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE "received_entry"');
  }
}
