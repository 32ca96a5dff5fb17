import type { MigrationInterface, QueryRunner } from 'typeorm';

/** The orders of lists that are no column, written as the lists write them: the database finds a page in an index and need not sort all. */
const statements = [
  `CREATE INDEX "fish_newest_first" ON "fish"
     ((lpad((DATE '9999-12-31' - coalesce(hatch_date, DATE '0001-01-01'))::text, 7, '0') || ' ' || tag), "id")`,
  `CREATE INDEX "fish_oldest_first" ON "fish"
     ((lpad((coalesce(hatch_date, DATE '0001-01-01') - DATE '0001-01-01')::text, 7, '0') || ' ' || tag), "id")`,
  `CREATE INDEX "spawn_by_day" ON "spawn" ((coalesce(spawned_on, hatch_date, DATE '0001-01-01')), "id")`,
];

/** Pages of the lists of fish and spawns by day, found and not sorted. */
export class OrdersOfLists1764280000000 implements MigrationInterface {
  readonly name = 'OrdersOfLists1764280000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
