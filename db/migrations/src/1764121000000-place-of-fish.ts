import type { MigrationInterface, QueryRunner } from 'typeorm';

const statements = [
  `ALTER TABLE "fish" ADD "swims_with_id" uuid`,
  `CREATE INDEX "fish_by_place" ON "fish" ("swims_with_id")`,
  // Until now a fish was taken to swim where its record is kept; of one that was passed on nobody wrote down with whom.
  `UPDATE "fish" SET "swims_with_id" = "keeper_id" WHERE "disposition" NOT IN ('placed', 'elsewhere')`,
  // The rows just filled wait for the checks of their other references.
  `SET CONSTRAINTS ALL IMMEDIATE`,
  `SET CONSTRAINTS ALL DEFERRED`,
  `ALTER TABLE "fish" ADD CONSTRAINT "fish_swims_with" FOREIGN KEY ("swims_with_id") REFERENCES "keeper"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
];

/** Where a fish swims, apart from whose record it is and from what was decided about it. */
export class PlaceOfFish1764121000000 implements MigrationInterface {
  readonly name = 'PlaceOfFish1764121000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
