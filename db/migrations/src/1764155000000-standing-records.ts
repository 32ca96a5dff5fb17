import type { MigrationInterface, QueryRunner } from 'typeorm';

/** Every table whose rows can be withdrawn. */
const tables = [
  ...['fish', 'spawn', 'spawn_event', 'spawn_count', 'spawn_loss', 'class_count', 'line'],
  ...['trait_definition', 'score', 'score_sheet', 'sheet_scoring', 'genotype', 'phenotype'],
  ...['own_locus', 'locus_setting', 'pairing', 'care_entry', 'care_template', 'water_reading'],
  'photo',
];

/** It reads with the rights of whoever asks, so that the policies of the tables hold. */
const view = (name: string, meaning: string): string =>
  `CREATE VIEW "${name}" WITH (security_invoker = true) AS ${meaning}`;

const views = [
  ...tables.map((table) =>
    view(`standing_${table}`, `SELECT * FROM "${table}" WHERE withdrawn_at IS NULL`),
  ),
  // Alive, and decided for; a fish passed on to someone on record is in use with them. Not asked: where it swims.
  view(
    'fish_in_use',
    `SELECT * FROM fish WHERE withdrawn_at IS NULL
       AND (disposition IN ('keeper', 'hold') OR (disposition = 'placed' AND swims_with_id IS NOT NULL))`,
  ),
  // Neither failed nor closed.
  view(
    'spawn_under_way',
    `SELECT * FROM spawn s WHERE s.withdrawn_at IS NULL AND NOT s.failed
       AND NOT EXISTS (SELECT 1 FROM spawn_event e WHERE e.spawn_id = s.id
         AND e.withdrawn_at IS NULL AND e.kind IN ('finished', 'failed'))`,
  ),
  // Neither withdrawn nor corrected by a later entry that stands.
  view(
    'score_in_force',
    `SELECT * FROM score s WHERE s.withdrawn_at IS NULL
       AND NOT EXISTS (SELECT 1 FROM score c WHERE c.corrects_id = s.id AND c.withdrawn_at IS NULL)`,
  ),
];

/**
 * What the words of the records mean, said once: standing, in use, under way, in force. A view lists the columns its table has now: a later
 * change that adds a column makes the views of that table anew.
 */
export class StandingRecords1764155000000 implements MigrationInterface {
  readonly name = 'StandingRecords1764155000000';

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of views) await runner.query(statement);
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
