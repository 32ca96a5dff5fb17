import type { MigrationInterface, QueryRunner } from 'typeorm';

const statements = [
  `ALTER TABLE "share_state" ADD "stampings" bigint NOT NULL DEFAULT '0'`,
  `ALTER TABLE "line_exchange" ADD "state_print" text, ADD "sealed_print" text, ADD "pictures" jsonb NOT NULL DEFAULT '{}'`,
  `ALTER TABLE "partner_install" ADD "refused_at" TIMESTAMP WITH TIME ZONE, ADD "refused_reason" text`,
];

/** What a folder's files were when they were written, so that nothing is read twice, and whether a partner took back this install's key. */
export class ExchangeTold1764196000000 implements MigrationInterface {
  readonly name = 'ExchangeTold1764196000000';

  async up(runner: QueryRunner): Promise<void> {
    // Deferred checks of rows that came before would bar a change of their tables.
    await runner.query('SET CONSTRAINTS ALL IMMEDIATE');
    for (const statement of statements) await runner.query(statement);
    await runner.query('SET CONSTRAINTS ALL DEFERRED');
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
