import type { MigrationInterface, QueryRunner } from 'typeorm';
import { guarded } from './guarded.js';

const person = (table: string): string =>
  `ALTER TABLE "${table}" ADD CONSTRAINT "${table}_person" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE NO ACTION ON UPDATE NO ACTION DEFERRABLE INITIALLY DEFERRED`;

const statements = [
  `CREATE TABLE "second_step" (
    "person_id" uuid NOT NULL,
    "secret" text NOT NULL,
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "confirmed_at" TIMESTAMP WITH TIME ZONE,
    "last_step" bigint NOT NULL DEFAULT '0',
    CONSTRAINT "PK_second_step" PRIMARY KEY ("person_id")
  )`,
  person('second_step'),
  `CREATE TABLE "spare_code" (
    "person_id" uuid NOT NULL,
    "code_hash" text NOT NULL,
    CONSTRAINT "PK_spare_code" PRIMARY KEY ("person_id", "code_hash")
  )`,
  person('spare_code'),
  `CREATE TABLE "passkey" (
    "id" uuid NOT NULL,
    "credential_id" text NOT NULL,
    "person_id" uuid NOT NULL,
    "name" text NOT NULL,
    "public_key" bytea NOT NULL,
    "counter" bigint NOT NULL,
    "transports" text array NOT NULL,
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "used_at" TIMESTAMP WITH TIME ZONE,
    CONSTRAINT "PK_passkey" PRIMARY KEY ("id")
  )`,
  `CREATE UNIQUE INDEX "passkey_by_credential" ON "passkey" ("credential_id")`,
  `CREATE INDEX "passkey_by_person" ON "passkey" ("person_id")`,
  person('passkey'),
  `CREATE TABLE "passkey_challenge" (
    "id" uuid NOT NULL,
    "challenge" text NOT NULL,
    "person_id" uuid,
    "expires_at" TIMESTAMP WITH TIME ZONE NOT NULL,
    CONSTRAINT "PK_passkey_challenge" PRIMARY KEY ("id")
  )`,
  person('passkey_challenge'),
  `CREATE INDEX "passkey_challenge_expires_at" ON "passkey_challenge" ("expires_at")`,
  `CREATE TABLE "program_token" (
    "id" uuid NOT NULL,
    "token_hash" text NOT NULL,
    "person_id" uuid NOT NULL,
    "name" text NOT NULL,
    "may_record" boolean NOT NULL,
    "created_at" TIMESTAMP WITH TIME ZONE NOT NULL DEFAULT now(),
    "expires_at" TIMESTAMP WITH TIME ZONE NOT NULL,
    "used_at" TIMESTAMP WITH TIME ZONE,
    CONSTRAINT "PK_program_token" PRIMARY KEY ("id")
  )`,
  `CREATE UNIQUE INDEX "program_token_by_token" ON "program_token" ("token_hash")`,
  `CREATE INDEX "program_token_by_person" ON "program_token" ("person_id")`,
  person('program_token'),
  ...['second_step', 'spare_code', 'passkey', 'passkey_challenge', 'program_token'].flatMap(
    guarded,
  ),
];

/** Beside the password: a code from a phone, spare codes, passkeys, and tokens for programs. */
export class WaysIn1764185000000 implements MigrationInterface {
  readonly name = 'WaysIn1764185000000';

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
