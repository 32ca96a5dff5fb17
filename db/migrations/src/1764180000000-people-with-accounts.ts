import type { MigrationInterface, QueryRunner } from 'typeorm';
import { guarded } from './guarded.js';

const statements = [
  `ALTER TABLE "person" DROP CONSTRAINT "person_role"`,
  `DO $$
   DECLARE actor text := coalesce(current_setting('linewright.actor', true), '');
   BEGIN
     PERFORM set_config('linewright.actor', 'system', true);
     UPDATE person SET role = 'partner' WHERE role = 'guest';
     PERFORM set_config('linewright.actor', actor, true);
   END $$`,
  `ALTER TABLE "person" ADD CONSTRAINT "person_role" CHECK ("role" IN ('owner', 'household', 'partner') AND "here" = ("role" = 'owner') OR "role" IS NULL AND NOT "here")`,
  // Those of the household see every record, as the owner does.
  `CREATE OR REPLACE FUNCTION door_open() RETURNS boolean LANGUAGE sql STABLE PARALLEL SAFE AS $$
     SELECT coalesce(split_part(current_setting('linewright.actor', true), ':', 1) IN ('system', 'owner', 'household'), false)
   $$`,
  `ALTER TABLE "session" ADD "id" uuid NOT NULL DEFAULT gen_random_uuid(),
     ADD "device" text NOT NULL DEFAULT '', ADD "seen_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now()`,
  `ALTER TABLE "session" ALTER "id" DROP DEFAULT`,
  `CREATE UNIQUE INDEX "session_by_id" ON "session" ("id")`,
  `CREATE TABLE "invitation" (
    "person_id" uuid NOT NULL,
    "token_hash" text NOT NULL,
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "expires_at" TIMESTAMP WITH TIME ZONE NOT NULL,
    CONSTRAINT "PK_invitation" PRIMARY KEY ("person_id")
  )`,
  `ALTER TABLE "invitation" ADD CONSTRAINT "invitation_person" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`,
  `CREATE UNIQUE INDEX "invitation_by_token" ON "invitation" ("token_hash")`,
  ...guarded('invitation'),
];

/** People of the household and partners with accounts of their own: their invitations, and sessions that can be told apart. */
export class PeopleWithAccounts1764180000000 implements MigrationInterface {
  readonly name = 'PeopleWithAccounts1764180000000';

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
