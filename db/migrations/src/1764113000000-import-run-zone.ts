import type { MigrationInterface, QueryRunner } from 'typeorm';

/** The time zone a large file was sent from: the day of its import is a day there. */
export class ImportRunZone1764113000000 implements MigrationInterface {
  readonly name = 'ImportRunZone1764113000000';

  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`ALTER TABLE "import_run" ADD "zone" text`);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
