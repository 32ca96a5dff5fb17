import { createHash, randomBytes } from 'node:crypto';
import { cpSync, existsSync } from 'node:fs';
import { join } from 'node:path';
import pg from 'pg';
import { inject } from 'vitest';
import { today, ZONE } from '../clock.js';

/** The run's one server. */
export interface RunDatabase {
  /** Address of a database on it from which others are made. */
  readonly server: string;
  /** What the names of this run's databases begin with. */
  readonly name: string;
  /** A folder of the run, gone after it. */
  readonly folder: string;
}

declare module 'vitest' {
  export interface ProvidedContext {
    readonly database: RunDatabase;
  }
}

const on = async <T>(url: string, work: (client: pg.Client) => Promise<T>): Promise<T> => {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return await work(client);
  } finally {
    await client.end();
  }
};

const onServer = <T>(work: (client: pg.Client) => Promise<T>): Promise<T> =>
  on(inject('database').server, work);

const addressOf = (name: string): string => {
  const url = new URL(inject('database').server);
  url.pathname = `/${name}`;
  return url.href;
};

/** Takes away what the program made for one database beside it: roles named after it, with all that is theirs. */
const dropRoles = (database: string, server: string): Promise<void> =>
  on(server, async (client) => {
    const { rows } = await client.query<{ rolname: string }>(
      'SELECT rolname FROM pg_roles WHERE starts_with(rolname, $1)',
      [`${database}_`],
    );
    for (const { rolname } of rows) await client.query(`DROP OWNED BY ${rolname} CASCADE`);
    for (const { rolname } of rows) await client.query(`DROP ROLE ${rolname}`);
  });

/** A filled database that others are copied from, and where its photos lie. */
export interface Template {
  readonly name: string;
  readonly photosDir: string;
}

/** Fills a new database at an address, from one process or another; leaves no connection behind. */
export type Fill = (url: string, photosDir: string) => Promise<void>;

/** The kinds of start. The demo tells of the days before it is loaded, on the day it is where the person stands. */
export const EMPTY = 'empty';
export const demoKind = (): string => `demo on ${today()} in ${ZONE}`;

/** The template of that kind: made by the first in the run who asks, while the others wait. */
export const templateOf = async (
  kind: string,
  fill: Fill,
  from: Template | null = null,
): Promise<Template> => {
  const { name: run, folder } = inject('database');
  const name = `${run}_t${createHash('sha256').update(kind).digest('hex').slice(0, 8)}`;
  const photosDir = join(folder, `${name}-photos`);
  await onServer(async (client) => {
    await client.query('SELECT pg_advisory_lock(hashtextextended($1, 0))', [name]);
    const { rows } = await client.query<{ datistemplate: boolean }>(
      'SELECT datistemplate FROM pg_database WHERE datname = $1',
      [name],
    );
    if (rows[0]?.datistemplate === true) return;
    // One whose making failed half-way.
    if (rows.length > 0) await client.query(`DROP DATABASE ${name} WITH (FORCE)`);
    await client.query(`CREATE DATABASE ${name} TEMPLATE ${from?.name ?? 'template1'}`);
    await fill(addressOf(name), photosDir);
    await dropRoles(name, addressOf(name));
    // Without it each copy would be asked by plans for empty tables until it is a minute old.
    await on(addressOf(name), (made) => made.query('ANALYZE'));
    await client.query(`ALTER DATABASE ${name} IS_TEMPLATE true`);
  });
  return { name, photosDir };
};

export interface NewDatabase {
  readonly url: string;
  /** Drops it, whoever still uses it. */
  drop(): Promise<void>;
}

/** A database of its own, with what the template holds; its photos go to a folder. */
export const copyOf = async (template: Template, photosDir: string): Promise<NewDatabase> => {
  const { name: run, server } = inject('database');
  const name = `${run}_${randomBytes(5).toString('hex')}`;
  await onServer((client) => client.query(`CREATE DATABASE ${name} TEMPLATE ${template.name}`));
  if (existsSync(template.photosDir)) cpSync(template.photosDir, photosDir, { recursive: true });
  return {
    url: addressOf(name),
    drop: async () => {
      await onServer((client) => client.query(`DROP DATABASE ${name} WITH (FORCE)`));
      await dropRoles(name, server);
    },
  };
};
