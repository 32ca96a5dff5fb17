import { readFileSync } from 'node:fs';
import { buildSchema } from 'graphql';
import type { Operation } from './hostile-values.js';

/** The committed schema, which another test holds against the running one. */
export const schema = buildSchema(
  readFileSync(new URL('../../docs/schema.graphql', import.meta.url), 'utf8'),
);
const fieldsOf = (type: { getFields(): Record<string, Operation> } | null | undefined) =>
  Object.values(type?.getFields() ?? {});

/** Those that end the session or clear the stock come last: the others need both. */
const LAST = [
  'withdrawFish',
  'withdrawSpawn',
  'withdrawLine',
  'setPassword',
  'signOut',
  'clearDemo',
];
const rank = ({ name }: Operation): number => LAST.indexOf(name);

export const operations = [
  ...fieldsOf(schema.getQueryType()).map((operation) => ['query', operation] as const),
  ...fieldsOf(schema.getMutationType())
    .toSorted((a, b) => rank(a) - rank(b))
    .map((operation) => ['mutation', operation] as const),
].map(([kind, operation]) => ({ name: operation.name, kind, operation }));
export const ownerOf = (kind: string): string => (kind === 'query' ? 'Query' : 'Mutation');
