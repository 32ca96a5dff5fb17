import pg from 'pg';
import { DATABASE_NAME } from './cluster.js';
import { systemCode } from './errors.js';

/** How a server answered one attempt to log in. */
export type Answer = 'ready' | 'not-yet' | 'password-refused';

/** SQLSTATE 28P01 invalid_password, 28000 invalid_authorization_specification. */
const REFUSED = new Set(['28P01', '28000']);
/** SQLSTATE 3D000 invalid_catalog_name. */
const NO_DATABASE = '3D000';
/** SQLSTATE 42P04 duplicate_database. */
const DUPLICATE_DATABASE = '42P04';

/** Tries to log in to our database once, making it when the server has none yet. */
export async function ask(port: number, password: string): Promise<Answer> {
  const outcome = await logIn(port, password, DATABASE_NAME);
  if (outcome === 'ready') return 'ready';
  if (outcome !== NO_DATABASE) return REFUSED.has(outcome) ? 'password-refused' : 'not-yet';
  const made = await logIn(port, password, 'postgres', `CREATE DATABASE ${DATABASE_NAME}`);
  return made === 'ready' || made === DUPLICATE_DATABASE ? 'ready' : 'not-yet';
}

async function logIn(
  port: number,
  password: string,
  database: string,
  statement?: string,
): Promise<string> {
  const client = new pg.Client({
    host: '127.0.0.1',
    port,
    user: DATABASE_NAME,
    password,
    database,
    connectionTimeoutMillis: 5_000,
  });
  client.on('error', () => undefined);
  try {
    await client.connect();
    if (statement !== undefined) await client.query(statement);
    return 'ready';
  } catch (error) {
    return systemCode(error) ?? 'unknown';
  } finally {
    await client.end().catch(() => undefined);
  }
}
