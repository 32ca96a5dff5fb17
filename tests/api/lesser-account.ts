import { createHash, randomBytes, randomUUID } from 'node:crypto';
import type { DataSource } from 'typeorm';
import { AHEAD_OF_A_LOOK } from '../../apps/api/src/pairing/values-ahead.js';
import { now } from '../clock.js';
import { type GraphqlAnswer, recordsOf, type RunningApi } from './harness.js';

/** An account that is not the owner's, signed in; no screen makes one yet, so it is put into the tables. */
export interface LesserAccount {
  readonly id: string;
  http(path: string, init?: RequestInit): Promise<Response>;
  send(
    query: string,
    variables?: object,
  ): Promise<GraphqlAnswer<unknown> & { readonly text: string }>;
}

const signedIn = async (records: DataSource, accountId: string): Promise<string> => {
  const token = randomBytes(32).toString('base64url');
  await records.query(
    `INSERT INTO session (id, id_hash, person_id, expires_at) VALUES (gen_random_uuid(), $1, $2, $3)`,
    [createHash('sha256').update(token).digest('hex'), accountId, new Date(now() + 86_400_000)],
  );
  return `linewright_session=${token}`;
};

/** Columns of a grant: to look at a line alone, or as much as can be lent. */
export const GRANTED = {
  'to look at': `'look', false, false, false, false, false`,
  'to breed with, all parts of it': `'breed', true, true, true, true, true`,
} as const;

export const lesserAccount = async (
  api: RunningApi,
  lineIds: readonly string[] = [],
  granted: keyof typeof GRANTED = 'to look at',
): Promise<LesserAccount> => {
  const records = await recordsOf(api);
  const id = randomUUID();
  await records.query(`INSERT INTO person (id, name, role) VALUES ($1, 'Visitor', 'partner')`, [
    id,
  ]);
  for (const lineId of lineIds)
    await records.query(
      `INSERT INTO line_grant (account_id, line_id, level, scores, photos, notes, water, place)
       VALUES ($1, $2, ${GRANTED[granted]})`,
      [id, lineId],
    );
  const cookie = await signedIn(records, id);
  const http = (path: string, init: RequestInit = {}): Promise<Response> => {
    const headers = new Headers(init.headers);
    headers.set('cookie', cookie);
    return fetch(`${api.url}${path}`, { ...init, headers });
  };
  return {
    id,
    http,
    send: async (query, variables = {}) => {
      const response = await http('/graphql', {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ query, variables }),
      });
      const text = await response.text();
      return { ...(JSON.parse(text) as GraphqlAnswer<unknown>), text };
    },
  };
};

/** Content of every table but those of being signed in, so that any change of any record shows. */
export const fingerprint = async (records: DataSource): Promise<Record<string, string>> => {
  const found: Record<string, string> = {};
  // What the server works out of its own accord once records are left alone is nobody's doing.
  const ownAccord = `to_jsonb(t) ->> 'asked_by' IS DISTINCT FROM '${AHEAD_OF_A_LOOK}'`;
  for (const { tableName } of records.entityMetadatas) {
    const [row] = (await records.query(
      `SELECT count(*) || ' ' || coalesce(md5(string_agg(t::text, '|' ORDER BY t::text)), '') AS print FROM "${tableName}" t WHERE ${ownAccord}`,
    )) as { print: string }[];
    found[tableName] = row?.print ?? '';
  }
  return found;
};

/** Columns in which people write; the name of a trait or a sheet may be one that everyone is offered. */
const WRITTEN = `(column_name IN ('tag', 'code', 'note', 'goal', 'caption', 'file_name', 'by_name', 'asked_by', 'what', 'learnt', 'locus_id', 'words', 'line_name')
  OR column_name = 'name' AND table_name IN ('fish', 'line', 'person'))`;
const SHORTEST = 5;
/** Such as "outcross", which screens say of anything. */
const PLAIN_WORD = /^[a-z]+$/;

/** Words and ids by which hidden records would be known: all that the tables hold of them, but what is told to everyone. */
export const secretsOf = async (
  records: DataSource,
  toldToAll: readonly string[],
): Promise<string[]> => {
  const columns = (await records.query(
    `SELECT table_name AS table, column_name AS name FROM information_schema.columns
     WHERE table_schema = current_schema() AND table_name <> 'migration' AND (data_type = 'uuid' OR ${WRITTEN})`,
  )) as { table: string; name: string }[];
  const found = new Set<string>();
  for (const { table, name } of columns) {
    const rows = (await records.query(
      `SELECT DISTINCT "${name}"::text AS word FROM "${table}" WHERE "${name}" IS NOT NULL`,
    )) as { word: string }[];
    for (const { word } of rows)
      if (word.length >= SHORTEST && !PLAIN_WORD.test(word)) found.add(word);
  }
  for (const word of toldToAll) found.delete(word);
  return [...found];
};

const UUID = /[\da-f]{8}(?:-[\da-f]{4}){3}-[\da-f]{12}/gi;

/** The same variables with every id but those told, and each of some names, exchanged for one that is nowhere; and the pairs of them. */
export const withMissingIds = (
  variables: object,
  names: readonly string[] = [],
  told: readonly string[] = [],
): { variables: object; pairs: [string, string][] } => {
  const given = JSON.stringify(variables);
  const pairs = [...new Set(given.match(UUID))]
    .filter((id) => !told.includes(id))
    .map((id): [string, string] => [id, randomUUID()]);
  for (const name of names)
    if (given.includes(name)) pairs.push([name, `none-${randomBytes(4).toString('hex')}`]);
  let text = given;
  for (const [hidden, missing] of pairs) text = text.replaceAll(hidden, missing);
  return { variables: JSON.parse(text) as object, pairs };
};

/** An answer with its ids numbered: two answers that differ in nothing else are the same. */
export const numbered = (text: string, ids: readonly string[]): string => {
  let told = text;
  ids.forEach((id, index) => (told = told.replaceAll(id, `#${index}`)));
  return told;
};
