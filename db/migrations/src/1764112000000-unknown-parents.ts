import type { MigrationInterface, QueryRunner } from 'typeorm';

const statements = [
  // Null says no: young of one spawn are full sibs, and a fish of unknown parents may be related to any other.
  `ALTER TABLE "spawn" ADD "mixed_origin" boolean`,
  `ALTER TABLE "fish" ADD "declared_unrelated" boolean`,
  `DROP TRIGGER fish_raises_pedigree_revision ON fish`,
  `CREATE TRIGGER fish_raises_pedigree_revision
     AFTER INSERT OR DELETE OR TRUNCATE OR UPDATE OF spawn_id, sex, hatch_date, withdrawn_at, declared_unrelated ON fish
     FOR EACH STATEMENT EXECUTE FUNCTION raise_pedigree_revision()`,
  `DROP TRIGGER spawn_raises_pedigree_revision ON spawn`,
  `CREATE TRIGGER spawn_raises_pedigree_revision
     AFTER INSERT OR DELETE OR TRUNCATE OR UPDATE OF sire_id, dam_id, withdrawn_at, mixed_origin ON spawn
     FOR EACH STATEMENT EXECUTE FUNCTION raise_pedigree_revision()`,
];

/** What is known of parents that nobody knows: broods that were mixed, and founders known to be unrelated. */
export class UnknownParents1764112000000 implements MigrationInterface {
  readonly name = 'UnknownParents1764112000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
