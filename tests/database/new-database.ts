import { randomBytes } from 'node:crypto';
import { join } from 'node:path';
import pg from 'pg';
import { inject } from 'vitest';

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

const onServer = async <T>(work: (client: pg.Client) => Promise<T>): Promise<T> => {
  const client = new pg.Client({ connectionString: inject('database').server });
  await client.connect();
  try {
    return await work(client);
  } finally {
    await client.end();
  }
};

const addressOf = (name: string): string => {
  const url = new URL(inject('database').server);
  url.pathname = `/${name}`;
  return url.href;
};

/** A filled database that others are copied from, and where its photos lie. */
export interface Template {
  readonly name: string;
  readonly photosDir: string;
}

/** Fills a new database at an address, from one process or another; leaves no connection behind. */
export type Fill = (url: string, photosDir: string) => Promise<void>;

/** The template of that kind: made by the first in the run who asks, while the others wait. */
export const templateOf = async (
  kind: string,
  fill: Fill,
  from: Template | null = null,
): Promise<Template> => {
  const { name: run, folder } = inject('database');
  const name = `${run}_${kind.toLowerCase().replace(/[^a-z0-9]+/g, '_')}`;
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
    await client.query(`ALTER DATABASE ${name} IS_TEMPLATE true`);
  });
  return { name, photosDir };
};

export interface NewDatabase {
  readonly url: string;
  /** Drops it, whoever still uses it. */
  drop(): Promise<void>;
}

/** A database of its own, with what the template holds. */
export const copyOf = async (template: Template): Promise<NewDatabase> => {
  const name = `${inject('database').name}_${randomBytes(5).toString('hex')}`;
  await onServer((client) => client.query(`CREATE DATABASE ${name} TEMPLATE ${template.name}`));
  return {
    url: addressOf(name),
    drop: async () => {
      await onServer((client) => client.query(`DROP DATABASE ${name} WITH (FORCE)`));
    },
  };
};
