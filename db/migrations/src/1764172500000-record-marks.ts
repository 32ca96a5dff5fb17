import type { MigrationInterface, QueryRunner } from 'typeorm';
import { guarded } from './guarded.js';

/** Tables of which any change counts, under their own names. */
const whole = [
  ...['fish', 'spawn', 'genotype', 'phenotype', 'class_count', 'spawn_loss', 'spawn_count'],
  ...['spawn_event', 'own_locus', 'locus_setting', 'score', 'trait_definition', 'trait_model'],
  ...['scoring_draw', 'line_purpose'],
];

/** Tables of which some columns count, under a name of its own: what else changes leaves these marks alone. */
const named = [
  { mark: 'fish_named', table: 'fish', columns: 'tag, line_id' },
  { mark: 'spawn_named', table: 'spawn', columns: 'tag, hatch_date' },
  { mark: 'line_named', table: 'line', columns: 'name, withdrawn_at' },
  { mark: 'keeper_named', table: 'keeper', columns: 'name' },
];

const trigger = (mark: string, table: string, update: string): string =>
  `CREATE TRIGGER "${mark}_is_marked" AFTER INSERT OR DELETE OR TRUNCATE OR ${update} ON "${table}"
     FOR EACH STATEMENT EXECUTE FUNCTION mark_records('${mark}')`;

const statements = [
  `CREATE TABLE "record_mark" (
    "id" bigint GENERATED ALWAYS AS IDENTITY,
    "kind" text NOT NULL,
    "weight" numeric NOT NULL,
    CONSTRAINT "PK_record_mark" PRIMARY KEY ("id")
  )`,
  `CREATE INDEX "record_mark_by_kind" ON "record_mark" ("kind")`,
  ...guarded('record_mark'),
  // A mark holds nothing of a record: whoever may change a record at all leaves one, and whoever asks for figures reads them.
  `CREATE POLICY "door_marks" ON "record_mark" USING ((SELECT door_account()) IS NOT NULL) WITH CHECK ((SELECT door_account()) IS NOT NULL)`,
  // Puts the marks of a kind together into one of the same sum. One at a time; who finds another at it leaves it to them.
  `CREATE OR REPLACE FUNCTION fold_record_marks(wanted text) RETURNS void LANGUAGE plpgsql AS $$
   BEGIN
     IF current_setting('transaction_isolation') <> 'read committed' OR NOT pg_try_advisory_xact_lock(hashtextextended('record_mark ' || wanted, 0)) THEN
       RETURN;
     END IF;
     WITH gone AS (DELETE FROM record_mark WHERE kind = wanted RETURNING weight)
     INSERT INTO record_mark (kind, weight) SELECT wanted, sum(weight) FROM gone HAVING count(*) > 0;
   END $$`,
  // Weights are drawn: the sum over what a reader sees is another one for each set of changes, in whatever order they were committed.
  `CREATE FUNCTION mark_records() RETURNS trigger LANGUAGE plpgsql AS $$
   DECLARE number bigint;
   BEGIN
     INSERT INTO record_mark (kind, weight) VALUES (TG_ARGV[0], 1 + trunc(random()::numeric * 1000000000000000)) RETURNING id INTO number;
     IF number % 256 = 0 THEN PERFORM fold_record_marks(TG_ARGV[0]); END IF;
     RETURN NULL;
   END $$`,
  ...whole.map((table) => trigger(table, table, 'UPDATE')),
  ...named.map(({ mark, table, columns }) => trigger(mark, table, `UPDATE OF ${columns}`)),
  // Culls by a look count as evidence of genotypes; other losses are recorded every day.
  `CREATE TRIGGER "spawn_loss_of_look_is_marked" AFTER INSERT ON "spawn_loss"
     FOR EACH ROW WHEN (NEW.locus_id IS NOT NULL) EXECUTE FUNCTION mark_records('spawn_loss_of_look')`,
  `CREATE TRIGGER "spawn_loss_of_look_is_marked_again" AFTER UPDATE ON "spawn_loss"
     FOR EACH ROW WHEN (OLD.locus_id IS NOT NULL OR NEW.locus_id IS NOT NULL) EXECUTE FUNCTION mark_records('spawn_loss_of_look')`,
  `INSERT INTO record_mark (kind, weight) SELECT kind, 1 + trunc(random()::numeric * 1000000000000000)
     FROM unnest(ARRAY['${[...whole, ...named.map(({ mark }) => mark), 'spawn_loss_of_look'].join("','")}']) AS t(kind)`,
];

/** Marks that each change of records leaves in its own transaction, so that the state of whole tables is read without reading them. */
export class RecordMarks1764172500000 implements MigrationInterface {
  readonly name = 'RecordMarks1764172500000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
