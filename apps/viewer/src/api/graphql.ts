import { initGraphQLTada } from 'gql.tada';
// Types of the documents, worked out once: without them a type check takes twice as long.
import type {} from './graphql-cache.js';
import type { introspection } from './graphql-env.js';

/** Typed GraphQL documents, checked against docs/schema.graphql. */
export const graphql = initGraphQLTada<{
  introspection: introspection;
  disableMasking: true;
  scalars: { Date: string; DateTime: string };
}>();

export type { FragmentOf, ResultOf, VariablesOf } from 'gql.tada';
