import type { MigrationInterface, QueryRunner } from 'typeorm';

const grants = [
  `ALTER TABLE "line_grant" ADD "level" text NOT NULL DEFAULT 'look',
     ADD "scores" boolean NOT NULL DEFAULT false, ADD "photos" boolean NOT NULL DEFAULT false,
     ADD "notes" boolean NOT NULL DEFAULT false, ADD "water" boolean NOT NULL DEFAULT false,
     ADD "place" boolean NOT NULL DEFAULT false`,
  `ALTER TABLE "line_grant" ADD CONSTRAINT "line_grant_level" CHECK ("level" IN ('look', 'score', 'breed'))`,
  // Lines of which a part was lent to whoever asks: of scores, photos, notes, water or place; or that may be scored, or bred with.
  `CREATE OR REPLACE FUNCTION door_lines_with(part text) RETURNS uuid[] LANGUAGE sql STABLE PARALLEL SAFE AS $$
     SELECT coalesce(array_agg(line_id), '{}') FROM line_grant WHERE account_id = door_account()
       AND CASE part WHEN 'scores' THEN scores WHEN 'photos' THEN photos WHEN 'notes' THEN notes
         WHEN 'water' THEN water WHEN 'place' THEN place
         WHEN 'score' THEN level IN ('score', 'breed') WHEN 'breed' THEN level = 'breed' ELSE false END
   $$`,
];

/** Views of a table whose columns have become more: each is made again with them. */
const anew = (name: string, meaning: string): string[] => [
  `DROP VIEW "${name}"`,
  `CREATE VIEW "${name}" WITH (security_invoker = true) AS ${meaning}`,
];

const scoredBy = [
  ...['score', 'sheet_scoring'].flatMap((table) => [
    `ALTER TABLE "${table}" ADD "by_account_id" uuid`,
    // The history says who; where nothing but the program keeps accounts apart, the policies hold whoever owns the tables too.
    `DO $$
     DECLARE actor text := coalesce(current_setting('linewright.actor', true), '');
     BEGIN
       PERFORM set_config('linewright.actor', 'system', true);
       UPDATE "${table}" t SET by_account_id = h.by_account_id FROM record_history h
         WHERE h.record_kind = '${table}' AND h.record_id = t.id AND h.revision = 1;
       PERFORM set_config('linewright.actor', actor, true);
     END $$`,
    `ALTER TABLE "${table}" ALTER "by_account_id" SET DEFAULT door_account()`,
    ...anew(`standing_${table}`, `SELECT * FROM "${table}" WHERE withdrawn_at IS NULL`),
  ]),
  ...anew(
    'score_in_force',
    `SELECT * FROM score s WHERE s.withdrawn_at IS NULL
       AND NOT EXISTS (SELECT 1 FROM score c WHERE c.corrects_id = s.id AND c.withdrawn_at IS NULL)`,
  ),
];

/** In brackets with SELECT: asked once a statement, not once a row. */
const lines = (part?: string): string =>
  `((SELECT ${part === undefined ? 'door_lines()' : `door_lines_with('${part}')`})::uuid[])`;
const ACCOUNT = '(SELECT door_account())';
const fishOf = (part?: string): string =>
  `SELECT id FROM fish WHERE line_id = ANY (${lines(part)})`;
const spawnsOf = (part?: string): string =>
  `SELECT id FROM spawn WHERE line_id = ANY (${lines(part)})`;

/** Its name comes behind that of the owner's policy, which is asked first and spares the owner this one. */
const mayRead = (table: string, which: string): string =>
  `CREATE POLICY "lent" ON "${table}" FOR SELECT USING (${which})`;
const mayAdd = (table: string, which: string): string =>
  `CREATE POLICY "lent_to_add" ON "${table}" FOR INSERT WITH CHECK (${which})`;
const mayChange = (table: string, which: string): string =>
  `CREATE POLICY "lent_to_change" ON "${table}" FOR UPDATE USING (${which}) WITH CHECK (${which})`;
const mayWrite = (table: string, which: string): string[] => [
  mayAdd(table, which),
  mayChange(table, which),
];

const looks = [
  mayRead('spawn', `line_id = ANY (${lines()})`),
  ...['spawn_event', 'spawn_count', 'spawn_loss', 'class_count'].map((table) =>
    mayRead(table, `spawn_id IN (${spawnsOf()})`),
  ),
  ...['genotype', 'phenotype'].map((table) => mayRead(table, `fish_id IN (${fishOf()})`)),
  // A locus of the owner's own is known to whoever sees a fish that says something of it.
  mayRead(
    'own_locus',
    `locus_id IN (SELECT locus_id FROM genotype WHERE fish_id IN (${fishOf()})
       UNION ALL SELECT locus_id FROM phenotype WHERE fish_id IN (${fishOf()}))`,
  ),
  mayRead('own_locus_version', `own_locus_id IN (SELECT id FROM own_locus)`),
];

/** By what fish are scored: of use to whoever sees scores, or gives them. */
const scales = [
  ...['trait_definition', 'score_sheet', 'score_sheet_version'].map((table) =>
    mayRead(table, `cardinality(${lines('scores')}) > 0 OR cardinality(${lines('score')}) > 0`),
  ),
];

const parts = [
  ...['score', 'sheet_scoring'].flatMap((table) => [
    mayRead(
      table,
      `fish_id IN (${fishOf('scores')}) OR by_account_id = ${ACCOUNT} AND fish_id IN (${fishOf()})`,
    ),
    ...mayWrite(table, `by_account_id = ${ACCOUNT} AND fish_id IN (${fishOf('score')})`),
  ]),
  mayRead('photo', `fish_id IN (${fishOf('photos')}) OR spawn_id IN (${spawnsOf('photos')})`),
  mayRead('water_reading', `spawn_id IN (${spawnsOf('water')})`),
  mayRead('care_record', `spawn_id IN (${spawnsOf('water')})`),
  mayRead('care_template', `line_id = ANY (${lines('water')})`),
];

const bred = `person_id = ${ACCOUNT} AND line_id = ANY (${lines('breed')})`;
const ofOwnSpawn = `spawn_id IN (SELECT id FROM spawn WHERE ${bred})`;

/** Their own spawns and fish of a line that they may breed with, and pairs planned of it. */
const breeding = [
  ...['spawn', 'fish'].flatMap((table) => mayWrite(table, bred)),
  ...['spawn_event', 'spawn_count', 'spawn_loss', 'class_count'].flatMap((table) =>
    mayWrite(table, ofOwnSpawn),
  ),
  ...['genotype', 'phenotype'].flatMap((table) =>
    mayWrite(table, `fish_id IN (SELECT id FROM fish WHERE ${bred})`),
  ),
  mayRead('pairing', `sire_id IN (${fishOf('breed')}) AND dam_id IN (${fishOf('breed')})`),
  ...mayWrite(
    'pairing',
    `person_id = ${ACCOUNT} AND sire_id IN (${fishOf('breed')}) AND dam_id IN (${fishOf('breed')})`,
  ),
  // The pedigree's revision is raised by whoever changes parentage; the row itself is not theirs.
  `CREATE OR REPLACE FUNCTION raise_pedigree_revision() RETURNS trigger LANGUAGE plpgsql AS $$
   DECLARE actor text := coalesce(current_setting('linewright.actor', true), '');
   BEGIN
     PERFORM set_config('linewright.actor', 'system', true);
     UPDATE install_state SET pedigree_revision = pedigree_revision + 1 WHERE id = 1;
     PERFORM set_config('linewright.actor', actor, true);
     RETURN NULL;
   END $$`,
];

/** What a partner asked for is worked out from what they see, so it is theirs alone; the owner and the household share theirs. */
const computed = [
  `CREATE OR REPLACE FUNCTION door_partner() RETURNS uuid LANGUAGE sql STABLE PARALLEL SAFE AS $$
     SELECT CASE WHEN NOT door_open() THEN door_account() END
   $$`,
  `ALTER TABLE "computation" ADD "partner_id" uuid DEFAULT door_partner()`,
  `DROP INDEX "computation_wanted_once"`,
  `CREATE UNIQUE INDEX "computation_wanted_once" ON "computation" ("kind", "subject", "evidence") WHERE state IN ('queued', 'running', 'done') AND partner_id IS NULL`,
  `CREATE UNIQUE INDEX "computation_of_partner_once" ON "computation" ("kind", "subject", "evidence", "partner_id") WHERE state IN ('queued', 'running', 'done')`,
  `CREATE POLICY "lent" ON "computation" USING (partner_id = ${ACCOUNT}) WITH CHECK (partner_id = ${ACCOUNT})`,
];

/** What somebody did themselves, and what their device sent. */
const own = [
  mayRead('record_history', `by_account_id = ${ACCOUNT}`),
  mayAdd('record_history', `by_account_id = ${ACCOUNT}`),
  `CREATE POLICY "lent" ON "received_entry" USING (person_id = ${ACCOUNT}) WITH CHECK (person_id = ${ACCOUNT})`,
];

/** What is granted of a line, part by part, held by the policies of each table; and who gave a score. */
export class LineGrants1764181000000 implements MigrationInterface {
  readonly name = 'LineGrants1764181000000';

  async up(runner: QueryRunner): Promise<void> {
    // Deferred checks of rows that came before would bar a change of their tables.
    await runner.query('SET CONSTRAINTS ALL IMMEDIATE');
    const all = [
      ...grants,
      ...scoredBy,
      ...looks,
      ...scales,
      ...parts,
      ...breeding,
      ...computed,
      ...own,
    ];
    for (const statement of all) await runner.query(statement);
    await runner.query('SET CONSTRAINTS ALL DEFERRED');
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
