import type { MigrationInterface, QueryRunner } from 'typeorm';

const here = `current_schema()::regnamespace`;

/** What bears a name: how it is renamed (`%I` for the old name and the new), and the name. */
const named = {
  columns: `SELECT format('ALTER %s %I RENAME COLUMN %%I TO %%I', CASE c.relkind WHEN 'v' THEN 'VIEW' ELSE 'TABLE' END, c.relname) AS how,
      a.attname::text AS name
    FROM pg_attribute a JOIN pg_class c ON c.oid = a.attrelid
    WHERE c.relnamespace = ${here} AND c.relkind IN ('r', 'v') AND a.attnum > 0 AND NOT a.attisdropped`,
  constraints: `SELECT format('ALTER TABLE %I RENAME CONSTRAINT %%I TO %%I', c.relname) AS how, k.conname::text AS name
    FROM pg_constraint k JOIN pg_class c ON c.oid = k.conrelid WHERE c.relnamespace = ${here}`,
  relations: `SELECT format('ALTER %s %%I RENAME TO %%I', CASE relkind WHEN 'i' THEN 'INDEX' WHEN 'v' THEN 'VIEW' ELSE 'TABLE' END) AS how,
      relname::text AS name
    FROM pg_class WHERE relnamespace = ${here} AND relkind IN ('r', 'v', 'i')`,
};

const renameAll = (found: string): string => `DO $$
  DECLARE one record;
  BEGIN
    FOR one IN SELECT how, name, replace(replace(name, 'keeper', 'person'), 'care_entry', 'care_record') AS wanted
      FROM (${found}) t WHERE name ~ 'keeper|care_entry'
    LOOP
      EXECUTE format(one.how, one.name, one.wanted);
    END LOOP;
  END $$`;

const kindOfCare = (table: string): string =>
  `UPDATE "${table}" SET record_kind = 'care_record' WHERE record_kind = 'care_entry';`;

const statements = [
  `DROP TRIGGER "keeper_named_is_marked" ON "keeper"`,
  renameAll(named.columns),
  // An index that holds up a constraint goes with it, and has its new name already.
  renameAll(named.constraints),
  renameAll(named.relations),
  `CREATE TRIGGER "person_named_is_marked" AFTER INSERT OR DELETE OR TRUNCATE OR UPDATE OF name ON "person"
     FOR EACH STATEMENT EXECUTE FUNCTION mark_records('person_named')`,
  // Where nothing but the program keeps accounts apart, the policies hold whoever owns the tables too.
  `DO $$
   DECLARE actor text := coalesce(current_setting('linewright.actor', true), '');
   BEGIN
     PERFORM set_config('linewright.actor', 'system', true);
     UPDATE record_mark SET kind = 'person_named' WHERE kind = 'keeper_named';
     ${['record_history', 'past_import_record', 'share_base'].map(kindOfCare).join('\n     ')}
     PERFORM set_config('linewright.actor', actor, true);
   END $$`,
];

/**
 * A keeper is a fish that is kept, and an entry what a device sent: people are called people, and what is recorded of care a record, in
 * the names of tables, columns, views, indexes and constraints, and in the kinds that the history tells.
 */
export class PeopleAndCareRecords1764174000000 implements MigrationInterface {
  readonly name = 'PeopleAndCareRecords1764174000000';

  async up(runner: QueryRunner): Promise<void> {
    // Deferred checks of rows that came before would bar a change of their tables.
    await runner.query('SET CONSTRAINTS ALL IMMEDIATE');
    for (const statement of statements) await runner.query(statement);
    await runner.query('SET CONSTRAINTS ALL DEFERRED');
  }

  async down(): Promise<void> {
    throw new Error('There is no way back from this migration: restore a backup instead.');
  }
}
