import type { MigrationInterface, QueryRunner } from 'typeorm';

/** When what last came of a line from a partner was written, by which it is found in the history. */
export class WhatCame1764209000000 implements MigrationInterface {
  readonly name = 'WhatCame1764209000000';

  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`ALTER TABLE "line_exchange" ADD "came_at" TIMESTAMP WITH TIME ZONE`);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
