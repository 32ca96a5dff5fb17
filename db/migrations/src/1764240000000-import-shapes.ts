import type { MigrationInterface, QueryRunner } from 'typeorm';
import { guarded } from './guarded.js';

const theirs = `person_id = (SELECT door_account()) AND (SELECT door_keeps())`;
const apart = `(SELECT door_alone()) OR "import_shape".person_id NOT IN (SELECT account_id FROM kept_line)`;

const statements = [
  `CREATE TABLE "import_shape" (
    "person_id" uuid NOT NULL,
    "shape" text NOT NULL,
    "file_name" text NOT NULL,
    "at" TIMESTAMP WITH TIME ZONE NOT NULL,
    "columns" jsonb NOT NULL,
    "repairs" jsonb NOT NULL,
    CONSTRAINT "PK_import_shape" PRIMARY KEY ("person_id", "shape")
  )`,
  `ALTER TABLE "import_shape" ADD CONSTRAINT "import_shape_person" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  ...guarded('import_shape'),
  `CREATE POLICY "kept" ON "import_shape" USING (${theirs}) WITH CHECK (${theirs})`,
  `CREATE POLICY "kept_apart" ON "import_shape" AS RESTRICTIVE USING (${apart}) WITH CHECK (${apart})`,
  `ALTER TABLE "import_run" ADD "repairs" jsonb, ALTER "columns" DROP NOT NULL`,
];

/** What was decided about a file, for the next one with the same columns, and beside a large file that is taken in. */
export class ImportShapes1764240000000 implements MigrationInterface {
  readonly name = 'ImportShapes1764240000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
