import { createHash, createHmac } from 'node:crypto';
import type { DataSource, QueryRunner } from 'typeorm';
import { LENT_SCHEMA } from '../access/grant.js';

/** Where pg-boss keeps its tables: ids of computations, no records. */
export const JOBS_SCHEMA = 'linewright_jobs';

/** How the product gets to the records. */
export interface ProductAccess {
  /** Address under which the product connects. */
  readonly url: string;
  /** What whoever runs the server should know; null when all is as it should be. */
  readonly told: string | null;
}

export interface OwnedDatabase {
  /** Connected as whoever owns the tables. */
  readonly owner: DataSource;
  readonly url: string;
  /** A server of our own, with nobody else's roles in it. */
  readonly embedded: boolean;
}

const LONGEST_NAME = 63;
/** SQLSTATE 42501. */
const NOT_ENOUGH_RIGHTS = '42501';

const quoted = (name: string): string => `"${name.replaceAll('"', '""')}"`;

/** One role a database: roles belong to the whole server, and two installs on one must not reach into each other. */
export const productRole = (database: string): string => {
  const name = `${database}_product`;
  if (Buffer.byteLength(name) <= LONGEST_NAME) return name;
  return `linewright_${createHash('sha256').update(database).digest('hex').slice(0, 24)}_product`;
};

/** Follows from the password beside the data, so that every process on the folder knows it and none has to store it. */
const passwordOf = (url: string, role: string): string =>
  createHmac('sha256', new URL(url).password).update(role).digest('base64url');

const one = async <Row>(runner: QueryRunner, sql: string, given: unknown[] = []): Promise<Row> => {
  const rows = (await runner.query(sql, given)) as Row[];
  return rows[0]!;
};

interface Standing {
  readonly database: string;
  readonly schema: string;
  readonly superuser: boolean;
  readonly bypasses: boolean;
  readonly user: string;
}

const standingOf = (runner: QueryRunner): Promise<Standing> =>
  one(
    runner,
    `SELECT current_database() AS database, current_schema() AS schema, current_user AS user,
       rolsuper AS superuser, rolsuper OR rolbypassrls AS bypasses FROM pg_roles WHERE rolname = current_user`,
  );

const makeRole = async (
  runner: QueryRunner,
  role: string,
  { superuser, user }: Standing,
): Promise<void> => {
  const { there } = await one<{ there: boolean }>(
    runner,
    'SELECT EXISTS (SELECT 1 FROM pg_roles WHERE rolname = $1) AS there',
    [role],
  );
  if (!there) await runner.query(`CREATE ROLE ${quoted(role)}`);
  if (superuser) return;
  const { member } = await one<{ member: boolean }>(
    runner,
    `SELECT pg_has_role(current_user, $1::name, 'MEMBER') AS member`,
    [role],
  );
  // Whoever makes a role may grant it, and is not always in it.
  if (!there || !member) await runner.query(`GRANT ${quoted(role)} TO ${quoted(user)}`);
};

/** In a copied or renamed database it is another role's; what waits in it is sent anew. */
const makeJobsSchema = async (runner: QueryRunner, role: string): Promise<void> => {
  const [found] = (await runner.query(
    'SELECT pg_get_userbyid(nspowner) AS owner FROM pg_namespace WHERE nspname = $1',
    [JOBS_SCHEMA],
  )) as { owner: string }[];
  if (found?.owner === role) return;
  if (found !== undefined) await runner.query(`DROP SCHEMA ${JOBS_SCHEMA} CASCADE`);
  await runner.query(`CREATE SCHEMA ${JOBS_SCHEMA} AUTHORIZATION ${quoted(role)}`);
};

/** Rows may be read and written, as far as the policies let; no table may be emptied, changed or dropped. */
const grantTables = async (
  runner: QueryRunner,
  role: string,
  { schema, database }: Standing,
): Promise<void> => {
  const to = quoted(role);
  const rights = 'SELECT, INSERT, UPDATE, DELETE ON';
  await runner.query(`GRANT USAGE ON SCHEMA ${quoted(schema)} TO ${to}`);
  await runner.query(`GRANT ${rights} ALL TABLES IN SCHEMA ${quoted(schema)} TO ${to}`);
  await runner.query(`REVOKE INSERT, UPDATE, DELETE ON "migration" FROM ${to}`);
  // A restore makes the tables anew.
  await runner.query(
    `ALTER DEFAULT PRIVILEGES IN SCHEMA ${quoted(schema)} GRANT ${rights} TABLES TO ${to}`,
  );
  await runner.query(`GRANT USAGE ON SCHEMA ${LENT_SCHEMA} TO ${to}`);
  await runner.query(`GRANT ${rights} ALL TABLES IN SCHEMA ${LENT_SCHEMA} TO ${to}`);
  await makeJobsSchema(runner, role);
  // pg-boss asks for its schema even when it is there.
  await runner.query(`GRANT CREATE, TEMPORARY ON DATABASE ${quoted(database)} TO ${to}`);
  const { may } = await one<{ may: boolean }>(
    runner,
    `SELECT has_database_privilege($1, current_database(), 'CREATE') AND has_table_privilege($1, 'fish', 'SELECT') AS may`,
    [role],
  );
  // A grant that one has no right to give is a warning only.
  if (!may)
    throw Object.assign(new Error('The rights were not granted.'), { code: NOT_ENOUGH_RIGHTS });
};

/** On the embedded server the product signs in as its role, and never as the superuser. */
const signInAs = async (runner: QueryRunner, role: string, url: string): Promise<string> => {
  const password = passwordOf(url, role);
  await runner.query(`ALTER ROLE ${quoted(role)} LOGIN PASSWORD '${password}'`);
  // Left by versions whose product was the superuser; computations that wait are sent anew.
  await runner.query('DROP SCHEMA IF EXISTS pgboss CASCADE');
  const product = new URL(url);
  product.username = role;
  product.password = password;
  return product.href;
};

/** On a server of somebody's own each connection takes the role up as it is made. */
const takingUp = (url: string, role: string): string => {
  const product = new URL(url);
  const before = product.searchParams.get('options');
  // Blanks and backslashes part the options: a name that has them is escaped.
  const escaped = role.replaceAll(/[\\\s]/g, (letter) => `\\${letter}`);
  product.searchParams.set('options', `${before === null ? '' : `${before} `}-c role=${escaped}`);
  product.search = product.search.replaceAll('+', '%20');
  return product.href;
};

/** Whether tables hold their owner to the policies: so where the product runs as the owner. */
export const isForcedOnOwner = async (runner: QueryRunner): Promise<boolean> => {
  const { forced } = await one<{ forced: boolean }>(
    runner,
    `SELECT EXISTS (SELECT 1 FROM pg_class
       WHERE relnamespace = current_schema()::regnamespace AND relforcerowsecurity) AS forced`,
  );
  return forced;
};

/** Holds the owner of the tables to the policies like everybody else; a table made anew is not. */
export const forceOnOwner = async (runner: QueryRunner): Promise<void> => {
  const tables = (await runner.query(
    `SELECT relname AS name FROM pg_class WHERE relnamespace = current_schema()::regnamespace
       AND relrowsecurity AND NOT relforcerowsecurity`,
  )) as { name: string }[];
  for (const { name } of tables)
    await runner.query(`ALTER TABLE ${quoted(name)} FORCE ROW LEVEL SECURITY`);
};

/**
 * Hands the tables out to the role under which the product runs, which owns none of them and bypasses no policy. Where the given user may
 * make no role, the product runs as that user, held to the same policies by force; that is told.
 */
export const productAccess = async ({
  owner,
  url,
  embedded,
}: OwnedDatabase): Promise<ProductAccess> => {
  const runner = owner.createQueryRunner();
  try {
    const standing = await standingOf(runner);
    const role = productRole(standing.database);
    await runner.startTransaction();
    try {
      await makeRole(runner, role, standing);
      await grantTables(runner, role, standing);
      const product = embedded ? await signInAs(runner, role, url) : takingUp(url, role);
      await runner.commitTransaction();
      return { url: product, told: null };
    } catch (error) {
      await runner.rollbackTransaction();
      if ((error as { code?: string }).code !== NOT_ENOUGH_RIGHTS) throw error;
    }
    await forceOnOwner(runner);
    const user = standing.user;
    return {
      url,
      told: standing.bypasses
        ? `The database user ${user} bypasses row-level security and may make no role for the program: only the program itself keeps accounts apart. Take BYPASSRLS from it, or let it make roles (ALTER ROLE ${user} CREATEROLE).`
        : `The database user ${user} may make no role for the program, so the program runs as the owner of the tables, with row-level security forced on it. To part the two: ALTER ROLE ${user} CREATEROLE, or as superuser CREATE ROLE ${role}; GRANT ${role} TO ${user}.`,
    };
  } finally {
    await runner.release();
  }
};
