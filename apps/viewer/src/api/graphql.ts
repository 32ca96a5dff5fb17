import { initGraphQLTada } from 'gql.tada';
import type { introspection } from './graphql-env.js';

/** Typed GraphQL documents, checked against docs/schema.graphql. */
export const graphql = initGraphQLTada<{
  introspection: introspection;
  disableMasking: true;
  scalars: { Date: string; DateTime: string };
}>();

export type { FragmentOf, ResultOf, VariablesOf } from 'gql.tada';
