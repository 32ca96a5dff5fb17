import type { MigrationInterface, QueryRunner } from 'typeorm';

/** Whether ancestors outside of a granted line are named to whoever it was granted to, or stay without their names. */
export class NamedAncestors1764260000000 implements MigrationInterface {
  readonly name = 'NamedAncestors1764260000000';

  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`ALTER TABLE "line_grant" ADD "ancestors" boolean NOT NULL DEFAULT false`);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
