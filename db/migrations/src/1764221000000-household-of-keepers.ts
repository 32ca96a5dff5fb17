import type { MigrationInterface, QueryRunner } from 'typeorm';

/** In brackets with SELECT: asked once a statement, not once a row. */
const SELF = '(SELECT door_self())';
const handed = (part: string): string => `((SELECT door_fish('${part}'))::uuid[])`;
const notApart = (line: string): string =>
  `(${line} IS NULL OR ${line} <> ALL ((SELECT door_kept_apart())::uuid[]))`;
const seen = (id: string, which = 'true'): string =>
  `EXISTS (SELECT 1 FROM fish o WHERE o.id = ${id} AND ${which})`;
const notKeepers = (account: string): string =>
  `${account} IS NULL OR ${account} NOT IN (SELECT account_id FROM kept_line)`;

const functions = [
  // Those of the household have what was handed to the owner.
  `CREATE OR REPLACE FUNCTION door_fish(part text) RETURNS uuid[] LANGUAGE sql STABLE PARALLEL SAFE AS $$
     SELECT coalesce(array_agg(fish_id), '{}') FROM hand_over
     WHERE to_id = door_self() AND moved_on IS NOT NULL AND ended_on IS NULL AND withdrawn_at IS NULL
       AND CASE part WHEN 'scores' THEN scores WHEN 'photos' THEN photos WHEN 'notes' THEN notes ELSE true END
   $$`,
];

const photos = [
  `ALTER TABLE "photo" ADD "by_account_id" uuid`,
  `UPDATE "photo" SET "by_account_id" = (SELECT h.by_account_id FROM record_history h WHERE h.record_id = photo.id ORDER BY h.sequence LIMIT 1)`,
  `ALTER TABLE "photo" ALTER "by_account_id" SET DEFAULT door_account()`,
  // Views list the columns that their table has.
  `DROP VIEW "standing_photo"`,
  `CREATE VIEW "standing_photo" WITH (security_invoker = true) AS SELECT * FROM "photo" WHERE withdrawn_at IS NULL`,
];

const apart = (table: string, which: string): string[] => {
  const may = `(SELECT door_alone()) OR ${which}`;
  return [
    `DROP POLICY IF EXISTS "kept_apart" ON "${table}"`,
    `CREATE POLICY "kept_apart" ON "${table}" AS RESTRICTIVE USING (${may}) WITH CHECK (${may})`,
  ];
};

/** Of a keeper's fish that was handed to whoever asks: what the keeper noted of it where that was to go along, and what others did. */
const agreed = (table: string, part: string): string =>
  `(${notKeepers(`"${table}".by_account_id`)} OR "${table}".fish_id = ANY (${handed(part)})
     OR ${seen(`"${table}".fish_id`, notApart('o.line_id'))})`;

const hidden = [
  ...apart(
    'hand_over',
    `${notApart('"hand_over".line_id')} OR ${SELF} IN ("hand_over".from_id, "hand_over".to_id)`,
  ),
  ...apart(
    'fish_claim',
    `${SELF} IN ("fish_claim".by_id, "fish_claim".to_id) OR ${seen('"fish_claim".fish_id')}`,
  ),
  ...['score', 'sheet_scoring'].flatMap((table) =>
    apart(table, `${seen(`"${table}".fish_id`)} AND ${agreed(table, 'scores')}`),
  ),
  ...apart(
    'photo',
    `("photo".fish_id IS NULL OR ${seen('"photo".fish_id')} AND ${agreed('photo', 'photos')})
       AND ("photo".spawn_id IS NULL OR EXISTS (SELECT 1 FROM spawn o WHERE o.id = "photo".spawn_id))`,
  ),
];

/** What keepers hand to the owner is offered to the whole household, and of their notes no more goes along than was agreed. */
export class HouseholdOfKeepers1764221000000 implements MigrationInterface {
  readonly name = 'HouseholdOfKeepers1764221000000';

  async up(runner: QueryRunner): Promise<void> {
    // Deferred checks of rows that came before would bar a change of their tables.
    await runner.query('SET CONSTRAINTS ALL IMMEDIATE');
    for (const statement of [...functions, ...photos, ...hidden]) await runner.query(statement);
    await runner.query('SET CONSTRAINTS ALL DEFERRED');
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
