import type { MigrationInterface, QueryRunner } from 'typeorm';

/** Whether phones on the network of the house may reach this install. */
export class HomeNetwork1764296000000 implements MigrationInterface {
  readonly name = 'HomeNetwork1764296000000';

  async up(runner: QueryRunner): Promise<void> {
    // Deferred checks of rows that came before would bar a change of their tables.
    await runner.query('SET CONSTRAINTS ALL IMMEDIATE');
    await runner.query(
      `ALTER TABLE "install_state" ADD "home_network" boolean NOT NULL DEFAULT false`,
    );
    await runner.query('SET CONSTRAINTS ALL DEFERRED');
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
